import type { Tools } from '#src/desk/command.ts'

type Settings = Pick<Tools, 'person' | 'crew'>

/** Units in which this person is answered when none are asked for: their own choice, else the crew's. */
export function unitSystemOf({ person, crew }: Settings): 'us' | 'metric' {
  return person.settings.units ?? crew.settings.units
}

/** What a number alone is taken in. */
export function bareUnitsOf(tools: Settings) {
  return unitSystemOf(tools) === 'metric'
    ? ({ length: 'm', area: 'm2', volume: 'L', temperature: 'C', speed: 'km/h' } as const)
    : ({ length: 'ft', area: 'ft2', volume: 'gal', temperature: 'F', speed: 'mph' } as const)
}
