/**
 * Runs a bundle in plain script. What the engine makes of its text is kept beside it once it has run for a moment, and
 * taken from there the next time, with the functions that a start needs. It is another for each version of the engine
 * and for other flags; where there is none, or nothing can be written, the text is read as usual.
 */
const { mkdirSync, promises, readFileSync, renameSync, writeFileSync } = require('node:fs')
const { createRequire } = require('node:module')
const path = require('node:path')
const { pathToFileURL } = require('node:url')
const { Script } = require('node:vm')
const { nameSources } = require('./bundle-places.cjs')

/** A start is over by then. */
const KEEP_AFTER_MS = 2000

/** @param {string} folder of the bundle @param {string} entry its file */
module.exports = function runBundle(folder, entry) {
  const flags = process.execArgv
    .join('')
    .replace(/[^\w.-]/g, '_')
    .slice(0, 150)
  const codes = path.join(folder, `code-${process.version}-${process.arch}${flags}`)
  const outside = createRequire(path.join(folder, entry))
  const exported = new Map()
  const scripts = new Map()
  const require = (name) => (name.startsWith('./') ? own(name.slice(2)) : outside(name))
  require.resolve = outside.resolve

  function own(name) {
    if (!exported.has(name)) exported.set(name, run(name))
    return exported.get(name)
  }

  function run(name) {
    const filename = path.join(folder, name)
    const cachedData = readIfThere(path.join(codes, name))
    const script = new Script(readFileSync(filename, 'latin1'), { filename, cachedData })
    if (cachedData === undefined || script.cachedDataRejected) scripts.set(name, script)
    return script.runInThisContext()(
      require,
      importPackage,
      defaultOf,
      namespaceOf,
      folder,
      pathToFileURL(filename).href,
    )
  }

  /** One file after another, and requests in between: a disk may take its time to flush each of them. */
  async function keepCode() {
    const { mkdir, rename, writeFile } = promises
    await mkdir(codes, { recursive: true })
    for (const [name, script] of scripts) {
      const making = path.join(codes, `${name}.${process.pid}`)
      await writeFile(making, script.createCachedData(), { flush: true })
      await rename(making, path.join(codes, name))
      scripts.delete(name)
    }
  }

  /** What has been loaded since, or was not kept yet. */
  function keepRest() {
    try {
      mkdirSync(codes, { recursive: true })
      for (const [name, script] of scripts) {
        const making = path.join(codes, `${name}.${process.pid}.last`)
        writeFileSync(making, script.createCachedData(), { flush: true })
        renameSync(making, path.join(codes, name))
      }
    } catch {
      // A folder that cannot be written is none of the program's business.
    }
  }

  nameSources(folder)
  setTimeout(() => void keepCode().catch(() => scripts.clear()), KEEP_AFTER_MS).unref()
  process.once('exit', keepRest)
  return own(entry)
}

function readIfThere(file) {
  try {
    return readFileSync(file)
  } catch {
    return undefined
  }
}

/** A script has no way to a module of its own. */
const importPackage = (name) => import(name)

/** What `import x from` means of a package: of a script its exports, of a module its default. */
const defaultOf = (found) => (found?.[Symbol.toStringTag] === 'Module' ? found.default : found)

/**
 * What a module sees of a script that it imports, once for each script.
 * @param {boolean} asInNode whether the default is all that the script exports, whatever it says of itself
 */
function namespaceOf(script, asInNode) {
  if (script?.__esModule && !asInNode) return script
  if ((typeof script !== 'object' && typeof script !== 'function') || script === null)
    return { default: script }
  const known = namespaces.get(script)
  if (known !== undefined) return known
  const made = Object.create(script, { default: { value: script, enumerable: true } })
  namespaces.set(script, made)
  return made
}
const namespaces = new WeakMap()
