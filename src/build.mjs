/**
 * Bundles the program and its backups, and starts the program once without logging in, so that nothing is written
 * beside them while they run, and a start finds what the engine has made of them: `npm run build`. Files of an earlier
 * build stay, since a program that still runs may yet load some of them.
 */
import { spawnSync } from 'node:child_process'
import { readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { bundle } from './bundle.mjs'

const root = path.dirname(import.meta.dirname)
const within = path.join(root, '.cache')
const { folder } = await bundle({
  root,
  entries: { main: 'src/main.ts', backup: 'src/backup/main.ts' },
  within,
})
for (const name of ['main', 'backup'])
  writeFileSync(path.join(within, `${name}.cjs`), `require('./${path.basename(folder)}/run-${name}.cjs')\n`)

// The engine takes its code again only with the same flags.
const { scripts } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'))
const flags = scripts.start.split(' ').filter((word) => word.startsWith('--'))
const rehearsal = spawnSync(process.execPath, [...flags, path.join(within, 'main.cjs'), 'rehearse'], {
  cwd: root,
  stdio: 'inherit',
})
process.exitCode = rehearsal.status ?? 1
