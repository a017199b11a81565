import { readdirSync } from 'node:fs'
import path from 'node:path'
import { z } from 'zod'
import { projectRoot, readData } from '#src/project.ts'

const Characters = z.array(z.object({ id: z.string(), states: z.array(z.object({ id: z.string() })) }))

/** Every character of the key with the ids of its states, as the data files have them. */
export function characterStates(): readonly (readonly [character: string, states: readonly string[]])[] {
  const names = readdirSync(path.join(projectRoot(), 'data/characters')).filter((name) =>
    name.endsWith('.json'),
  )
  return names.flatMap((name) =>
    Characters.parse(JSON.parse(readData(`characters/${name}`))).map(
      ({ id, states }) => [id, states.map((state) => state.id)] as const,
    ),
  )
}
