/** Bundles one TypeScript entry into the ignored .cache folder and runs it: `node src/launch.mjs ENTRY [ARGS]`. */
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { bundleForNow } from './bundle.mjs'

const { file, remove } = await bundleForNow(path.dirname(import.meta.dirname), process.argv[2])
process.once('exit', remove)
process.argv.splice(1, 2, file)
process.setSourceMapsEnabled(true)
await import(pathToFileURL(file).href)
