/**
 * Bundles TypeScript entries, so that they start several times faster and in far less memory than file by file. What
 * they import only when it is wanted stays in files of its own, and its packages unloaded until then.
 */
import { createHash } from 'node:crypto'
import { rmSync } from 'node:fs'
import path from 'node:path'
import { build } from 'esbuild'

/**
 * Packages of plain script that a start needs: read from one file instead of hundreds, and what nobody imports of them
 * falls away. Every other package stays outside.
 */
const INSIDE = new Set([
  '@babel/runtime',
  '@formatjs/fast-memoize',
  '@formatjs/icu-messageformat-parser',
  '@formatjs/icu-skeleton-parser',
  'complex.js',
  'dayjs',
  'decimal.js',
  'fraction.js',
  'fuse.js',
  'intl-messageformat',
  'kysely',
  'tiny-emitter',
  'typed-function',
  'zod',
])

/**
 * The whole of mathjs takes most of a second to load, and only its numbers and units are used. What zod says in fifty
 * languages nobody reads here: a problem is said through the catalogues.
 */
const bundlePackages = {
  name: 'bundle-packages',
  setup(bundler) {
    const packages = path.join(bundler.initialOptions.absWorkingDir, 'node_modules')
    const entryOfMathjs = path.join(packages, 'mathjs', 'lib', 'esm', 'index.js')
    bundler.onResolve({ filter: /^mathjs$/ }, () => ({ path: entryOfMathjs, sideEffects: false }))
    const englishOfZod = path.join(packages, 'zod', 'v4', 'locales', 'en.js')
    bundler.onResolve({ filter: /^\.\.\/locales\/index\.js$/ }, ({ importer }) =>
      importer.startsWith(path.join(packages, 'zod')) ? { path: englishOfZod } : undefined,
    )
    bundler.onResolve({ filter: /^[^./#]/ }, ({ path: wanted, kind }) => {
      const name = /^(?:@[^/]+\/)?[^/]+/.exec(wanted)?.[0] ?? wanted
      return kind === 'entry-point' || INSIDE.has(name) ? undefined : { path: wanted, external: true }
    })
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
    // The engine holds the whole text as long as the process lives, comments too; names stay as they are.
    minifyWhitespace: true,
    // An error that nobody caught prints the line on which it was thrown.
    lineLimit: 160,
    plugins: [bundlePackages],
    // In files of their own, so that nobody reads them who does not ask for them; the sources lie beside.
    sourcemap: 'linked',
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
