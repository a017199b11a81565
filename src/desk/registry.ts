import type { Command } from './command.ts'

export type Registry = ReadonlyMap<string, Command>

export function registryOf(commands: readonly Command[]): Registry {
  const registry = new Map(commands.map((command) => [command.name, command]))
  if (registry.size !== commands.length) throw new Error('Two commands have the same name')
  return registry
}
