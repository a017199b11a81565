/**
 * Bundles TypeScript entries, so that they start several times faster and in far less memory than file by file. What
 * they import only when it is wanted stays in files of its own, and its packages unloaded until then. The files are
 * plain scripts, which `run-bundle.cjs` runs with the code that the engine has made of them before.
 */
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { scriptOf } from './bundle-script.mjs'
import { freshBundle, inUse, keepInputs, removeUnused } from './bundles-kept.mjs'

/** Packages that are no plain script, or read files that lie beside them. Every other one is read from one file. */
const OUTSIDE = new Set([
  '@resvg/resvg-js',
  'better-sqlite3',
  'better-sqlite3-current',
  'bufferutil',
  'dejavu-fonts-ttf',
  'esbuild',
  'pdfkit',
  'pg',
  'playwright-core',
  'sharp',
  'typescript',
  'utf-8-validate',
  'zlib-sync',
])

/** What runs a bundle lies in its folder, so that both are of one making. */
const RUNNERS = ['run-bundle.cjs', 'bundle-places.cjs']

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
      return kind !== 'entry-point' && OUTSIDE.has(name) ? { path: wanted, external: true } : undefined
    })
  },
}

/**
 * Bundles entries into a folder that is named after what it holds, and never changes.
 * @param {{ root: string, entries: Readonly<Record<string, string>>, within: string }} parts the project's folder; the
 * entries below it by the names of their files, without an ending; where the folder goes
 * @returns the folder, and the files it was made of
 */
export async function bundle({ root, entries, within }) {
  // Only who bundles anew waits for it.
  const { build, stop } = await import('esbuild')
  const { outputFiles, metafile } = await build({
    absWorkingDir: root,
    entryPoints: entries,
    // As deep as the folder will be, for the way to the sources.
    outdir: path.join(within, 'made'),
    outExtension: { '.js': '.cjs' },
    write: false,
    metafile: true,
    bundle: true,
    splitting: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    define: { 'import.meta.dirname': '__dirname', 'import.meta.url': '__url' },
    // The engine holds the whole text as long as the process lives, comments too; names stay as they are.
    minifyWhitespace: true,
    legalComments: 'none',
    // An error that nobody caught prints the line on which it was thrown.
    lineLimit: 160,
    plugins: [bundlePackages],
    // In files of their own, so that nobody reads them who does not ask for them; the sources lie beside.
    sourcemap: 'linked',
    sourcesContent: false,
    logLevel: 'warning',
  })
  // Its service would stay beside the program, with twice the memory of it.
  await stop()
  const made = outputFiles.map(({ path: file, text }) => [path.basename(file), text])
  const ofFile = new Map(Object.entries(metafile.outputs).map(([file, one]) => [path.basename(file), one]))
  const scripts = made.map(([name, text]) => [name, scriptOf(name, text, ofFile.get(name))])
  for (const name of Object.keys(entries))
    scripts.push([`run-${name}.cjs`, `require('./run-bundle.cjs')(__dirname, '${name}.cjs')\n`])
  for (const name of RUNNERS) scripts.push([name, readFileSync(path.join(import.meta.dirname, name), 'utf8')])
  const hash = createHash('sha256')
  for (const [name, text] of scripts) hash.update(`${name}\n${text}\n`)
  const folder = path.join(within, `${Object.keys(entries).join('-')}-${hash.digest('hex').slice(0, 12)}`)
  if (!existsSync(folder)) writeWhole(folder, scripts)
  return { folder, inputs: Object.keys(metafile.inputs).map((file) => path.resolve(root, file)) }
}

/** All files or none, also when two are at it. */
function writeWhole(folder, files) {
  const making = `${folder}.${process.pid}`
  mkdirSync(making, { recursive: true })
  for (const [name, text] of files) writeFileSync(path.join(making, name), text)
  try {
    renameSync(making, folder)
  } catch (error) {
    rmSync(making, { recursive: true, force: true })
    if (!existsSync(folder)) throw error
  }
}

/**
 * Bundles one entry into a folder of the ignored .cache, unless nothing has changed since it was bundled last.
 * @param {string} root the project's folder
 * @param {string} entry below it
 * @returns the file to run, and what says that nobody needs it any longer
 */
export async function bundleForNow(root, entry) {
  const within = path.join(root, '.cache')
  const name = path.basename(entry, '.ts')
  const source = path.resolve(root, entry)
  const list = path.join(
    within,
    `${name}-${createHash('sha256').update(source).digest('hex').slice(0, 8)}.json`,
  )
  const known = freshBundle(list)
  const release = known === null ? null : inUse(known)
  if (known !== null && release !== null)
    return { file: path.join(known, `run-${name}.cjs`), remove: release }
  const { folder, inputs } = await bundle({ root, entries: { [name]: source }, within })
  const remove = inUse(folder)
  keepInputs(list, folder, [...inputs, ...bundledBy(root)])
  removeUnused(within, folder)
  return { file: path.join(folder, `run-${name}.cjs`), remove: remove ?? (() => {}) }
}

/** What decides on a bundle besides the files in it. A bundler that is bundled itself lies elsewhere than its sources. */
const bundledBy = (root) => [
  ...[path.join(root, 'src'), import.meta.dirname].flatMap((folder) =>
    ['bundle.mjs', 'bundle-script.mjs', 'bundles-kept.mjs', ...RUNNERS].map((name) =>
      path.join(folder, name),
    ),
  ),
  ...['package.json', 'package-lock.json', 'tsconfig.json', 'node_modules/.package-lock.json'].map((name) =>
    path.join(root, name),
  ),
]
