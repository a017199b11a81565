import type { Suggest, Suggestion } from './conversation/ask.ts'
import type { Reply } from './conversation/reply.ts'
import { type Desk, openDesk } from './desk/desk.ts'
import { nameSources } from './desk/name-sources.ts'
import type { Registry } from './desk/registry.ts'
import { openSuggestions } from './desk/suggest.ts'
import { type FetchFile, takeFilesInto } from './desk/take-files.ts'
import { keySuggestions } from './identify/suggest.ts'
import { wordsOfTheKey } from './identify/words.ts'
import { type Draw, drawer } from './messengers/draw.ts'
import { type Blobs, blobsIn } from './store/blobs.ts'
import type { Database } from './store/open.ts'
import { buildCatalogue, type Catalogue } from './words/catalogue.ts'
import { chooseSafety } from './words/choose-safety.ts'
import { loadEmergencyFinder, loadSafetyLines, readWordFiles } from './words/load.ts'

/** Everything that an answer takes, wired, with the data that it rests on. */
export interface Answering {
  readonly desk: Desk
  readonly registry: Registry
  readonly words: Catalogue
  readonly blobs: Blobs
  readonly suggest: (asked: Suggest) => Promise<readonly Suggestion[]>
  readonly chooseSafety: (reply: Reply, number: number) => readonly string[]
  readonly draw: Draw
}

export type ReportError = (error: unknown, about: Readonly<Record<string, unknown>>) => void

export interface AnsweringParts {
  /** Where photos are kept, by hash. */
  readonly filesFolder: string
  readonly zone: string
  readonly fetchFile: FetchFile
  readonly reportError: ReportError
  /** False lets a script run as fast as it can: nobody else is in its room. */
  readonly slowsFloods?: boolean
}

/** Reads words, safety lines and words of alarm, and wires the one path. @throws CatalogueError */
export function openAnswering(
  parts: AnsweringParts & { readonly database: Database; readonly registry: Registry },
): Answering {
  const { database, registry, reportError } = parts
  const words = buildCatalogue(readWordFiles(), wordsOfTheKey)
  const lines = loadSafetyLines()
  const blobs = blobsIn(parts.filesFolder)
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
    findEmergency: loadEmergencyFinder(),
    chooseSafety: choose,
    reportError,
    ...(parts.slowsFloods === false ? { flood: () => true } : {}),
  })
  return {
    desk,
    registry,
    words,
    blobs,
    suggest: openSuggestions({ database, registry, sources: nameSources, custom: keySuggestions }),
    chooseSafety: choose,
    draw: drawer({ words, blobs, database }),
  }
}
