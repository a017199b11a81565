/** Bundles the program and its backups, so that nothing is written beside them while they run: `npm run build`. */
import { mkdirSync } from 'node:fs'
import path from 'node:path'
import { bundle } from './bundle.mjs'

const root = path.dirname(import.meta.dirname)
const cache = path.join(root, '.cache')

mkdirSync(cache, { recursive: true })
for (const [entry, name] of [
  ['src/main.ts', 'main.mjs'],
  ['src/backup/main.ts', 'backup.mjs'],
])
  await bundle(path.join(root, entry), path.join(cache, name))
