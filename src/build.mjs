/**
 * Bundles the program and its backups, so that nothing is written beside them while they run: `npm run build`. Files of
 * an earlier build stay, since a program that still runs may yet load some of them.
 */
import path from 'node:path'
import { bundle } from './bundle.mjs'

const root = path.dirname(import.meta.dirname)
await bundle({
  root,
  entries: { main: 'src/main.ts', backup: 'src/backup/main.ts' },
  folder: path.join(root, '.cache'),
})
