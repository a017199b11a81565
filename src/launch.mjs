/** Bundles one TypeScript entry into the ignored .cache folder and runs it: `node src/launch.mjs ENTRY [ARGS]`. */
import { createRequire } from 'node:module'
import path from 'node:path'
import { bundleForNow } from './bundle.mjs'

const { file, remove } = await bundleForNow(path.dirname(import.meta.dirname), process.argv[2])
process.once('exit', remove)
process.argv.splice(1, 2, file)
createRequire(import.meta.url)(file)
