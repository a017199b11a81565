/** Where a place of a bundle stands in the sources, read from the map beside it. */
const { readFileSync } = require('node:fs')
const path = require('node:path')

/** Errors name the lines of the sources. A map is read when an error of its file is printed, and let go again. */
exports.nameSources = function nameSources(folder) {
  const known = new Map()
  const keyOf = (frame) => `${frame.getFileName()}:${frame.getLineNumber()}:${frame.getColumnNumber()}`

  function learn(frames) {
    const files = new Map()
    for (const frame of frames) {
      const file = frame.getFileName()
      if (!file?.startsWith(folder) || known.has(keyOf(frame))) continue
      files.set(file, [...(files.get(file) ?? []), frame])
    }
    if (known.size > MOST_KNOWN) known.clear()
    for (const [file, ofFile] of files) {
      const places = placesIn(`${file}.map`, ofFile)
      for (const [at, frame] of ofFile.entries()) known.set(keyOf(frame), places[at])
    }
  }

  Error.prepareStackTrace = (error, frames) => {
    learn(frames)
    const lines = frames.map((frame) => {
      const place = known.get(keyOf(frame))
      return `    at ${place === undefined ? frame : `${frame}`.replace(keyOf(frame), place)}`
    })
    return [`${error}`, ...lines].join('\n')
  }
}
const MOST_KNOWN = 1000

/** `file:line:column` of the sources for each of these frames; undefined for one that the map does not know. */
function placesIn(map, frames) {
  try {
    const { mappings, sources } = JSON.parse(readFileSync(map, 'utf8'))
    const wanted = frames.map((frame) => ({
      line: frame.getLineNumber() - 1,
      column: frame.getColumnNumber() - 1,
    }))
    return originsOf(mappings, wanted).map((found) =>
      found === undefined
        ? undefined
        : `${path.resolve(path.dirname(map), sources[found.source])}:${found.line + 1}:${found.column + 1}`,
    )
  } catch {
    return []
  }
}

/** One pass over a map (its format is version 3 of ECMA-426): each number is what the one before it grew by. */
function originsOf(mappings, wanted) {
  const found = []
  const last = Math.max(...wanted.map(({ line }) => line))
  const sum = [0, 0, 0, 0]
  let [line, at, value, shift] = [0, 0, 0, 0]
  const end = () => {
    if (at < 4) return
    for (const [which, place] of wanted.entries())
      if (place.line === line && sum[0] <= place.column)
        found[which] = { source: sum[1], line: sum[2], column: sum[3] }
  }
  for (let index = 0; index <= mappings.length && line <= last; index += 1) {
    const letter = mappings.charCodeAt(index)
    if (letter === COMMA || letter === SEMICOLON || index === mappings.length) {
      end()
      at = 0
      if (letter !== SEMICOLON) continue
      line += 1
      sum[0] = 0
      continue
    }
    const digit = DIGITS[letter]
    value += (digit & 31) << shift
    shift += 5
    if (digit & 32) continue
    if (at < 4) sum[at] += value & 1 ? -(value >> 1) : value >> 1
    at += 1
    value = 0
    shift = 0
  }
  return wanted.map((_, which) => found[which])
}
const COMMA = 44
const SEMICOLON = 59
const DIGITS = new Uint8Array(128)
for (const [digit, letter] of [
  ...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/',
].entries())
  DIGITS[letter.charCodeAt(0)] = digit
