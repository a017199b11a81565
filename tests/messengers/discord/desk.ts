import { type Desk, openDesk } from '#src/desk/desk.ts'
import { takeFilesInto } from '#src/desk/take-files.ts'
import { attachmentFetcher } from '#src/messengers/discord/files.ts'
import type { Blobs } from '#src/store/blobs.ts'
import type { Database } from '#src/store/open.ts'
import { buildCatalogue } from '#src/words/catalogue.ts'
import { readWordFiles } from '#src/words/load.ts'
import { toyRegistry, toyWords } from './toys.ts'

export const words = buildCatalogue([...readWordFiles(), ...toyWords])

/** The real desk with the toy commands; photos are fetched from this host only, and kept in memory. */
export function toyDesk(
  database: Database,
  fileHost: string,
  reportError: (error: unknown, about: object) => void,
): Desk {
  return openDesk({
    database,
    registry: toyRegistry,
    defaultZone: 'America/Chicago',
    takeFiles: takeFilesInto(blobsInMemory(), attachmentFetcher([fileHost])),
    findEmergency: () => null,
    chooseSafety: () => ['measure.gloves-eyes'],
    reportError,
  })
}

function blobsInMemory(): Blobs {
  const kept = new Map<string, Uint8Array>()
  return {
    keep: async (bytes) => {
      const name = String(kept.size + 1)
      kept.set(name, bytes)
      return name
    },
    read: async (name) => kept.get(name) ?? new Uint8Array(),
    pathOf: (name) => name,
  }
}
