import { describe, expect, test } from 'vitest'
import { commands } from '#commands/index.ts'
import { registryOf } from '#src/desk/registry.ts'
import { defineAll } from '#src/messengers/discord/definitions.ts'
import { loadWords } from '#src/words/load.ts'

type Named = {
  readonly name: string
  readonly name_localizations?: Readonly<Record<string, string | null>> | null
  readonly options?: readonly Named[]
}

const definitions = defineAll(registryOf(commands), loadWords()) as unknown as readonly Named[]
const everyName = (list: readonly Named[]): readonly Named[] =>
  list.flatMap((one) => [one, ...everyName(one.options ?? [])])

describe('what a person with a Spanish messenger sees of a command', () => {
  test.each(['es-ES', 'es-419'])('every command and option has a name of its own (%s)', (locale) => {
    const lacking = everyName(definitions).filter(({ name_localizations: names }) => !names?.[locale])
    expect(lacking.map(({ name }) => name)).toEqual([])
  })

  // Replies and crews say "/mix": whoever types that must find it, in whatever language.
  test('it begins with the name that everybody says, so that both find it', () => {
    const bare = (text: string) => text.normalize('NFD').replace(/\p{M}/gu, '')
    for (const { name, name_localizations: names } of everyName(definitions))
      for (const own of Object.values(names ?? {}))
        expect(`${bare(own ?? '')}-`.startsWith(`${name}-`), own ?? '').toBe(true)
  })

  test('no two options of one command look alike', () => {
    for (const { options = [] } of definitions.flatMap((one) => [one, ...(one.options ?? [])])) {
      const names = options.map((one) => one.name_localizations?.['es-419'] ?? one.name)
      expect(new Set(names).size).toBe(names.length)
    }
  })
})
