import emergency from '#commands/emergency.ts'
import type { Speaker } from '#src/conversation/ask.ts'
import type { Reply } from '#src/conversation/reply.ts'
import type { Command } from '#src/desk/command.ts'
import { type Desk, type DeskParts, openDesk } from '#src/desk/desk.ts'
import { registryOf } from '#src/desk/registry.ts'
import { noFiles } from '#src/desk/take-files.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import { readOnly } from '#src/store/transaction.ts'
import { chooseSafety } from '#src/words/choose-safety.ts'
import { loadEmergencyFinder, loadSafetyLines } from '#src/words/load.ts'
import { ada } from './asks.ts'
import { toyCommands } from './toy-commands.ts'

export interface TestDesk extends Desk {
  readonly database: Database
  /** What the desk told whoever runs it. */
  readonly errors: { readonly error: unknown; readonly about: Readonly<Record<string, unknown>> }[]
  /** Looks into a crew's rows. */
  look<T>(see: (store: CrewStore) => Promise<T>, by?: Speaker): Promise<T>
  /** Names of the sites that a crew has: what the toy commands wrote. */
  written(by?: Speaker): Promise<string[]>
}

const lines = loadSafetyLines()
const hear = loadEmergencyFinder()

export const choose = (reply: Reply, number: number) =>
  chooseSafety(lines, {
    about: reply.safety.about,
    turnNumber: number,
    ...(reply.safety.first === undefined ? {} : { first: reply.safety.first }),
  })

/** The real desk, safety lines and words of alarm, with toy commands beside the real /emergency. */
export function openTestDesk(
  database: Database,
  parts: Partial<DeskParts> & { readonly commands?: readonly Command[] } = {},
): TestDesk {
  const { commands = toyCommands, ...rest } = parts
  const errors: TestDesk['errors'] = []
  const desk = openDesk({
    database,
    registry: registryOf([emergency, ...commands]),
    defaultZone: 'America/Chicago',
    takeFiles: noFiles,
    findEmergency: hear,
    chooseSafety: choose,
    reportError: (error, about) => errors.push({ error, about }),
    flood: () => true,
    ...rest,
  })
  const look: TestDesk['look'] = (see, by = ada) =>
    readOnly(database, async (db) => see(crewStore(db, (await findCrew(db, by.crewKey))?.id ?? 0)))
  return {
    ...desk,
    database,
    errors,
    look,
    written: async (by) => (await look((store) => store.sites.list(), by)).map(({ name }) => name),
  }
}
