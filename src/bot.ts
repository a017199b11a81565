import { mkdirSync } from 'node:fs'
import path from 'node:path'
import type { Suggest, Suggestion } from './conversation/ask.ts'
import type { Reply } from './conversation/reply.ts'
import type { Command } from './desk/command.ts'
import { type Desk, openDesk } from './desk/desk.ts'
import { nameSources } from './desk/name-sources.ts'
import { type Commands, type Registry, registryOf } from './desk/registry.ts'
import { openSuggestions } from './desk/suggest.ts'
import { type FetchFile, takeFilesInto } from './desk/take-files.ts'
import { keySuggestions } from './identify/suggest.ts'
import { wordsOfTheKey } from './identify/words.ts'
import { once } from './memory/once.ts'
import { type Draw, drawer } from './messengers/draw.ts'
import { type Blobs, blobsIn } from './store/blobs.ts'
import type { Purpose } from './store/migrate.ts'
import { type Database, type DatabaseAddress, openDatabase } from './store/open.ts'
import { buildCatalogue, type Catalogue, catalogueOf } from './words/catalogue.ts'
import { chooseSafety } from './words/choose-safety.ts'
import { loadEmergencyFinder, loadSafetyLines, readWordFiles } from './words/load.ts'

/** Everything that a messenger needs, opened and wired. */
export interface Bot<Known extends Commands = Registry> {
  readonly database: Database
  readonly desk: Desk
  readonly registry: Known
  readonly words: Catalogue
  readonly blobs: Blobs
  readonly suggest: (asked: Suggest) => Promise<readonly Suggestion[]>
  readonly chooseSafety: (reply: Reply, number: number) => readonly string[]
  readonly draw: Draw
  readonly reportError: ReportError
  close(): Promise<void>
}

export type ReportError = (error: unknown, about: Readonly<Record<string, unknown>>) => void

interface Surroundings {
  readonly address: DatabaseAddress
  readonly purpose: Purpose
  /** Where photos are kept, by hash. */
  readonly filesFolder: string
  readonly zone: string
  readonly fetchFile: FetchFile
  readonly reportError: ReportError
  /** False lets a script run as fast as it can: nobody else is in its room. */
  readonly slowsFloods?: boolean
}

export interface BotParts extends Surroundings {
  readonly commands: readonly Command[]
}

/** Opens the store and wires the one path. @throws WrongDatabase, CatalogueError, or what the engine says. */
export function openBot({ commands, ...parts }: BotParts): Promise<Bot> {
  return openBotWith({ ...parts, registry: registryOf(commands) })
}

/**
 * With commands that may come later.
 * @throws WrongDatabase, CatalogueError, or what the engine says
 */
export async function openBotWith<Known extends Commands>(
  parts: Surroundings & {
    readonly registry: Known
    /** True where an earlier start has found every file of data in order: each is read when it is first needed. */
    readonly isDataKnown?: boolean
  },
): Promise<Bot<Known>> {
  const { registry } = parts
  const readWords = once(() => buildCatalogue(readWordFiles(), wordsOfTheKey))
  const readLines = once(loadSafetyLines)
  const readAlarms = once(loadEmergencyFinder)
  if (!parts.isDataKnown) for (const read of [readWords, readLines, readAlarms]) read()
  const words = catalogueOf(readWords)
  const blobs = blobsIn(parts.filesFolder)
  if (parts.address.engine === 'sqlite' && parts.address.path !== ':memory:')
    mkdirSync(path.dirname(parts.address.path), { recursive: true, mode: 0o700 })
  const database = await openDatabase(parts.address, parts.purpose)
  const choose = (reply: Reply, number: number) =>
    chooseSafety(readLines(), {
      about: reply.safety.about,
      turnNumber: number,
      ...(reply.safety.first === undefined ? {} : { first: reply.safety.first }),
    })
  const desk = openDesk({
    database,
    registry,
    defaultZone: parts.zone,
    takeFiles: takeFilesInto(blobs, parts.fetchFile),
    findEmergency: (text) => readAlarms()(text),
    chooseSafety: choose,
    reportError: parts.reportError,
    ...(parts.slowsFloods === false ? { flood: () => true } : {}),
  })
  return {
    database,
    desk,
    registry,
    words,
    blobs,
    suggest: openSuggestions({ database, registry, sources: nameSources, custom: keySuggestions }),
    chooseSafety: choose,
    draw: drawer({ words, blobs, database }),
    reportError: parts.reportError,
    close: () => database.close(),
  }
}
