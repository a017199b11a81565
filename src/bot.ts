import { type Answering, type AnsweringParts, openAnswering, type ReportError } from './answering.ts'
import type { Command } from './desk/command.ts'
import { registryOf } from './desk/registry.ts'
import { openStore } from './open-store.ts'
import type { Purpose } from './store/migrate.ts'
import type { Database, DatabaseAddress } from './store/open.ts'

/** Everything that a messenger needs, opened and wired. */
export interface Bot extends Answering {
  readonly database: Database
  readonly reportError: ReportError
  close(): Promise<void>
}

export interface BotParts extends AnsweringParts {
  readonly address: DatabaseAddress
  readonly purpose: Purpose
  readonly commands: readonly Command[]
}

/** Opens the store and wires the one path. @throws WrongDatabase, CatalogueError, or what the engine says. */
export async function openBot({ address, purpose, commands, ...parts }: BotParts): Promise<Bot> {
  const registry = registryOf(commands)
  const database = await openStore(address, purpose)
  try {
    return {
      ...openAnswering({ ...parts, database, registry }),
      database,
      reportError: parts.reportError,
      close: () => database.close(),
    }
  } catch (error) {
    await database.close()
    throw error
  }
}
