import { mkdirSync } from 'node:fs'
import path from 'node:path'
import type { Suggest, Suggestion } from './conversation/ask.ts'
import type { Reply } from './conversation/reply.ts'
import type { Command } from './desk/command.ts'
import { type Desk, openDesk } from './desk/desk.ts'
import { nameSources } from './desk/name-sources.ts'
import { type Registry, registryOf } from './desk/registry.ts'
import { openSuggestions } from './desk/suggest.ts'
import { type FetchFile, takeFilesInto } from './desk/take-files.ts'
import { keySuggestions } from './identify/suggest.ts'
import { wordsOfTheKey } from './identify/words.ts'
import { type Draw, drawer } from './messengers/draw.ts'
import { type Blobs, blobsIn } from './store/blobs.ts'
import type { Purpose } from './store/migrate.ts'
import { type Database, type DatabaseAddress, openDatabase } from './store/open.ts'
import { buildCatalogue, type Catalogue } from './words/catalogue.ts'
import { chooseSafety } from './words/choose-safety.ts'
import { loadEmergencyFinder, loadSafetyLines, readWordFiles } from './words/load.ts'

/** Everything that a messenger needs, opened and wired. */
export interface Bot {
  readonly database: Database
  readonly desk: Desk
  readonly registry: Registry
  readonly words: Catalogue
  readonly blobs: Blobs
  readonly suggest: (asked: Suggest) => Promise<readonly Suggestion[]>
  readonly chooseSafety: (reply: Reply, number: number) => readonly string[]
  readonly draw: Draw
  readonly reportError: ReportError
  close(): Promise<void>
}

export type ReportError = (error: unknown, about: Readonly<Record<string, unknown>>) => void

export interface BotParts {
  readonly address: DatabaseAddress
  readonly purpose: Purpose
  /** Where photos are kept, by hash. */
  readonly filesFolder: string
  readonly zone: string
  readonly commands: readonly Command[]
  readonly fetchFile: FetchFile
  readonly reportError: ReportError
  /** False lets a script run as fast as it can: nobody else is in its room. */
  readonly slowsFloods?: boolean
}

/** Opens the store and wires the one path. @throws WrongDatabase, CatalogueError, or what the engine says. */
export async function openBot(parts: BotParts): Promise<Bot> {
  const words = buildCatalogue(readWordFiles(), wordsOfTheKey)
  const lines = loadSafetyLines()
  const findEmergency = loadEmergencyFinder()
  const registry = registryOf(parts.commands)
  const blobs = blobsIn(parts.filesFolder)
  if (parts.address.engine === 'sqlite' && parts.address.path !== ':memory:')
    mkdirSync(path.dirname(parts.address.path), { recursive: true, mode: 0o700 })
  const database = await openDatabase(parts.address, parts.purpose)
  const choose = (reply: Reply, number: number) =>
    chooseSafety(lines, {
      about: reply.safety.about,
      turnNumber: number,
      ...(reply.safety.first === undefined ? {} : { first: reply.safety.first }),
    })
  const desk = openDesk({
    database,
    registry,
    defaultZone: parts.zone,
    takeFiles: takeFilesInto(blobs, parts.fetchFile),
    findEmergency,
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
