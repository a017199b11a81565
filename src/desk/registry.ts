import { later } from '#src/memory/later.ts'
import type { Command } from './command.ts'

/** Commands by name. */
export type Registry = ReadonlyMap<string, Command>

/** Where a command is found by its name: all of them are there, or come when the first is asked for. */
export interface Commands {
  get(name: string): Command | undefined | Promise<Command | undefined>
}

export function registryOf(commands: readonly Command[]): Registry {
  const registry = new Map(commands.map((command) => [command.name, command]))
  if (registry.size !== commands.length) throw new Error('Two commands have the same name')
  return registry
}

export interface LaterCommands extends Commands {
  get(name: string): Promise<Command | undefined>
  all(): Promise<Registry>
}

/** Commands that are loaded once, when somebody first asks for one: a start knows them by what was kept of them. */
export function laterCommands(load: () => Promise<readonly Command[]>): LaterCommands {
  const all = later(async () => registryOf(await load()))
  return { all, get: async (name) => (await all()).get(name) }
}
