import { mkdirSync } from 'node:fs'
import path from 'node:path'
import type { Purpose } from './store/migrate.ts'
import { type Database, type DatabaseAddress, openDatabase } from './store/open.ts'

/** Opens the store, in a folder that is made for it. @throws WrongDatabase, or what the engine says */
export function openStore(address: DatabaseAddress, purpose: Purpose): Promise<Database> {
  if (address.engine === 'sqlite' && address.path !== ':memory:')
    mkdirSync(path.dirname(address.path), { recursive: true, mode: 0o700 })
  return openDatabase(address, purpose)
}
