/**
 * Bundles TypeScript entries, so that they start several times faster and in far less memory than file by file. What
 * they import only when it is wanted stays in files of its own, and its packages unloaded until then.
 */
import { createHash } from 'node:crypto'
import { rmSync } from 'node:fs'
import path from 'node:path'
import { build } from 'esbuild'

/**
 * The whole of mathjs takes most of a second to load, and only its numbers and units are used: it is bundled, so that
 * what is not imported falls away. Every other package stays outside.
 */
const bundleMathjs = {
  name: 'bundle-mathjs',
  setup(bundler) {
    const packages = path.join(bundler.initialOptions.absWorkingDir, 'node_modules')
    const entryOfMathjs = path.join(packages, 'mathjs', 'lib', 'esm', 'index.js')
    bundler.onResolve({ filter: /^mathjs$/ }, () => ({ path: entryOfMathjs, sideEffects: false }))
  },
}

/**
 * Each entry becomes a file of the folder, beside those that they share.
 * @param {{ root: string, entries: Readonly<Record<string, string>>, folder: string }} parts the project's folder; the
 * entries below it by the names of their files, without an ending; where these go
 */
export async function bundle({ root, entries, folder }) {
  await build({
    absWorkingDir: root,
    entryPoints: entries,
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    bundle: true,
    splitting: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    packages: 'external',
    plugins: [bundleMathjs],
    sourcemap: 'inline',
    // The sources lie beside: without them the maps take a fraction of the memory.
    sourcesContent: false,
    logLevel: 'warning',
  })
}

/**
 * Bundles one entry into a folder of the ignored .cache that is this process's own.
 * @param {string} root the project's folder
 * @param {string} entry below it
 * @returns the file to run, and what removes it with all that it imports
 */
export async function bundleForNow(root, entry) {
  const name = path.basename(entry, '.ts')
  const of = createHash('sha256').update(path.resolve(root, entry)).digest('hex').slice(0, 8)
  const folder = path.join(root, '.cache', `${name}-${of}-${process.pid}`)
  await bundle({ root, entries: { [name]: path.resolve(root, entry) }, folder })
  return {
    file: path.join(folder, `${name}.mjs`),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  }
}
