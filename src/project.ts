import { existsSync, readFileSync } from 'node:fs'
import path from 'node:path'

/** The project's folder, found by walking up, so that sources and bundle agree on it. */
export function projectRoot(): string {
  found ??= rootAbove(import.meta.dirname)
  return found
}
let found: string | null = null

function rootAbove(from: string): string {
  if (existsSync(path.join(from, 'package.json')) && existsSync(path.join(from, 'data'))) return from
  const parent = path.dirname(from)
  if (parent === from) throw new Error('Cannot find the project folder: no package.json beside a data folder')
  return rootAbove(parent)
}

/** Text of a file below data/, e.g. `readData('taxa/taxa.csv')`. Throws if it is not there. */
export function readData(name: string): string {
  return readFileSync(path.join(projectRoot(), 'data', name), 'utf8')
}

/** Settings of the project's own `.env` file, where there is one; what is set already stays. */
export function loadOwnEnvironment(): void {
  const own = path.join(projectRoot(), '.env')
  if (existsSync(own)) process.loadEnvFile(own)
}
