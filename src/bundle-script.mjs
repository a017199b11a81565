/**
 * Makes plain scripts of the modules that a bundler writes, since the engine takes its own code of earlier runs for
 * scripts alone on every Node. Each becomes a function of `run-bundle.cjs`, and gives back what it exports.
 */

const IMPORT = /(?<=^|[;}\n])import(?:([\w$*\s{},]+?)from)?"([^"]+)";/g
const EXPORT = /(?<=^|[;}\n])export\{([\w$\s,]*)\};/g
const TO_MODULE = /(?<=^|[;}\n])var __toESM=(?=\()/
const LATER = /(?<![\w$.])import\("([^"]+)"\)/g

/**
 * @param {string} name of the file
 * @param {string} text a module of a bundle, or its source map
 * @param {import('esbuild').Metafile['outputs'][string] | undefined} told what the bundler says of it
 * @throws Error where the text is not written as expected
 */
export function scriptOf(name, text, told) {
  // The function begins on a line of its own.
  if (name.endsWith('.map')) return text.replace('"mappings": "', '"mappings": ";')
  const heads = []
  const found = { imports: new Set(), later: new Set(), exports: new Set() }
  const body = text
    .replace(IMPORT, (whole, names, from) => {
      found.imports.add(from)
      heads.push(headOf(names, from))
      return lineEnds(whole)
    })
    .replace(EXPORT, (whole, names) => {
      const pairs = names.split(',').map((one) => one.trim().split(/\s+as\s+/))
      for (const [own, outside = own] of pairs) found.exports.add(outside)
      return `${lineEnds(whole)}return{${pairs.map(([own, outside = own]) => `${outside}:${own}`)}};`
    })
    .replace(LATER, (_, from) => {
      found.later.add(from)
      return from.startsWith('./') ? `Promise.resolve().then(()=>require("${from}"))` : `__import("${from}")`
    })
    // The bundler's own would copy all that a package exports for each file that imports some of it.
    .replace(TO_MODULE, 'var __toESM=__namespaceOf,__copyOf=')
    // A letter beyond ASCII is left in patterns alone, and would double what the engine holds of the text.
    .replace(/[^\0-\x7f]/g, (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`)
  assertAll(name, found, told)
  const isEntry = told?.entryPoint !== undefined && found.exports.size === 0
  return `(${isEntry ? 'async ' : ''}function(require,__import,__defaultOf,__namespaceOf,__dirname,__url){"use strict";${heads.join('')}\n${body}\n})`
}

const lineEnds = (text) => text.replace(/[^\n]+/g, '')

/** ` a,{b as c}` of an import as declarations. */
function headOf(names, from) {
  if (names === undefined) return `require("${from}");`
  const [, first, whole, some] =
    /^\s*([\w$]+)?\s*,?\s*(?:\*\s*as\s+([\w$]+))?\s*(?:\{([\w$\s,]*)\})?\s*$/.exec(names)
  const wanted = `require("${from}")`
  return [
    first === undefined ? '' : `const ${first}=__defaultOf(${wanted});`,
    whole === undefined ? '' : `const ${whole}=${wanted};`,
    some === undefined ? '' : `const{${some.replace(/\s+as\s+/g, ':').replace(/\s+/g, '')}}=${wanted};`,
  ].join('')
}

/** Nothing but what the bundler says it wrote was taken for an import or an export, and nothing is left. */
function assertAll(name, found, told) {
  const base = (file) => file.replace(/^.*\//, './')
  const of = (kind) =>
    (told?.imports ?? [])
      .filter((one) => one.kind === kind)
      .map(({ path: file, external }) => (external ? file : base(file)))
  const pairs = [
    [found.imports, of('import-statement')],
    [found.later, of('dynamic-import')],
    [found.exports, told?.exports ?? []],
  ]
  for (const [here, there] of pairs)
    if ([...new Set(there)].sort().join() !== [...here].sort().join())
      throw new Error(
        `Cannot make a script of ${name}: ${[...here].sort()} is not ${[...new Set(there)].sort()}`,
      )
}
