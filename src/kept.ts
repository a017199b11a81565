import { readdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { projectRoot } from './project.ts'

/** What a start has found out from the program and its data, for later starts of the same program on the same data. */
export interface Kept<Found> {
  /** Null where no start has kept anything, or a file below data/ has changed since. */
  readonly found: Found | null
  /** Keeps it for the next start; where nothing can be written, the next one finds it out again. */
  keep(found: Found): void
}

/**
 * Kept in the folder of the bundle, which is another for every change of the program. Outside of one nothing is kept.
 * @param found its shape is the program's own: only the same bundle reads what it has written
 */
export function keptBeside<Found>(folder: string, name: string, data = dataFolder()): Kept<Found> {
  if (path.basename(path.dirname(folder)) !== '.cache') return { found: null, keep() {} }
  const file = path.join(folder, `${name}.json`)
  const state = stateOf(data)
  return {
    found: readKept(file, state) as Found | null,
    keep(found) {
      const making = `${file}.${process.pid}`
      try {
        writeFileSync(making, JSON.stringify({ state, found }))
        renameSync(making, file)
      } catch {
        // A folder that cannot be written is none of the program's business.
      }
    },
  }
}

function readKept(file: string, state: string): unknown {
  try {
    const kept = JSON.parse(readFileSync(file, 'utf8'))
    return kept.state === state ? kept.found : null
  } catch {
    return null
  }
}

const dataFolder = () => path.join(projectRoot(), 'data')

/** Name, length and second of every file: a copy of a folder may lose the rest of a second. */
function stateOf(data: string): string {
  const lines: string[] = []
  const look = (folder: string) => {
    for (const entry of readdirSync(folder, { withFileTypes: true })) {
      const file = `${folder}/${entry.name}`
      if (entry.isDirectory()) {
        look(file)
        continue
      }
      const { size, mtimeMs } = statSync(file)
      lines.push(`${path.relative(data, file)} ${size} ${Math.floor(mtimeMs / 1000)}`)
    }
  }
  look(data)
  return lines.sort().join('\n')
}
