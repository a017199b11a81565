/** Bundles one TypeScript entry into the ignored .cache folder and runs it: `node src/launch.mjs ENTRY [ARGS]`. */
import { createHash } from 'node:crypto'
import { mkdirSync, rmSync } from 'node:fs'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { bundle } from './bundle.mjs'

const root = path.dirname(import.meta.dirname)
const entry = path.resolve(root, process.argv[2])
const name = createHash('sha256').update(entry).digest('hex').slice(0, 8)
const outfile = path.join(root, '.cache', `${path.basename(entry, '.ts')}-${name}-${process.pid}.mjs`)

mkdirSync(path.dirname(outfile), { recursive: true })
await bundle(entry, outfile)
process.once('exit', () => rmSync(outfile, { force: true }))
process.argv.splice(1, 2, outfile)
process.setSourceMapsEnabled(true)
await import(pathToFileURL(outfile).href)
