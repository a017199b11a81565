import { z } from 'zod'

/** One instruction of a container file: `RUN npm ci` is `{ name: 'RUN', rest: 'npm ci' }`. */
export interface Step {
  readonly name: string
  readonly rest: string
}

/** A container file, read as far as running its steps without an engine needs. */
export interface ContainerFile {
  /** `COPY` and `RUN` of the stage that builds, in their order. */
  readonly build: readonly Step[]
  /** What the last stage runs on its own root before it is closed. */
  readonly prepare: readonly string[]
  readonly environment: Readonly<Record<string, string>>
  readonly folder: string
  readonly user: string
  readonly volumes: readonly string[]
  readonly command: readonly string[]
  readonly health: readonly string[]
}

const Words = z.array(z.string()).min(1)

/** @throws Error for an instruction that this does not know: then the steps would not be what an engine runs */
export function readContainerFile(text: string): ContainerFile {
  const stages: Step[][] = []
  for (const step of stepsOf(text)) {
    if (step.name === 'FROM') stages.push([])
    else stages.at(-1)?.push(step)
  }
  const [build = [], last = []] = stages
  if (stages.length !== 2) throw new Error(`Cannot run ${stages.length} stages: there are to be two`)
  const known = ['ENV', 'WORKDIR', 'COPY', 'RUN', 'USER', 'VOLUME', 'HEALTHCHECK', 'CMD']
  const strange = [...build, ...last].filter(({ name }) => !known.includes(name))
  if (strange.length > 0) throw new Error(`Cannot run ${strange.map(({ name }) => name)}`)
  const all = (name: string) => last.filter((step) => step.name === name).map(({ rest }) => rest)
  const one = (name: string) => all(name).at(-1) ?? ''
  return {
    build: build.filter(({ name }) => name === 'COPY' || name === 'RUN'),
    prepare: all('RUN'),
    environment: Object.fromEntries(
      all('ENV').flatMap((rest) => rest.split(/\s+/).map((pair) => pair.split(/=(.*)/s).slice(0, 2))),
    ),
    folder: one('WORKDIR'),
    user: one('USER'),
    volumes: all('VOLUME'),
    command: Words.parse(JSON.parse(one('CMD'))),
    health: Words.parse(JSON.parse(one('HEALTHCHECK').replace(/^.*?CMD\s+/s, ''))),
  }
}

/** Instructions, with lines that end in a backslash joined. */
function stepsOf(text: string): Step[] {
  return text
    .replace(/\\\n/g, ' ')
    .split('\n')
    .filter((line) => line.trim() !== '' && !line.startsWith('#'))
    .map((line) => {
      const [, name = '', rest = ''] = /^(\w+)\s+(.*)$/s.exec(line) ?? []
      return { name, rest: rest.trim() }
    })
}
