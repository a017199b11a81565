/** Where a place of a bundle stands in the sources, read from the map beside it. */
const { readFileSync } = require('node:fs')
const { SourceMap } = require('node:module')
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
    if (!isUnread(frames)) learn(frames)
    const lines = frames.map((frame) => {
      const place = known.get(keyOf(frame))
      return `    at ${place === undefined ? frame : `${frame}`.replace(keyOf(frame), place)}`
    })
    return [`${error}`, ...lines].join('\n')
  }
}
const MOST_KNOWN = 1000

/**
 * Node makes an error each time that a stream is read to its end, an upload for instance, and throws it away. Maps are
 * large: reading one takes a tenth of a second and tens of megabytes.
 */
const isUnread = ([first]) => first?.getFileName()?.startsWith('node:internal/webstreams/') ?? false

/** `file:line:column` of the sources for each of these frames; undefined for one that the map does not know. */
function placesIn(map, frames) {
  try {
    const places = new SourceMap(JSON.parse(readFileSync(map, 'utf8')))
    return frames.map((frame) => {
      const found = places.findEntry(frame.getLineNumber() - 1, frame.getColumnNumber() - 1)
      if (found.originalSource === undefined) return undefined
      const file = path.resolve(path.dirname(map), found.originalSource)
      return `${file}:${found.originalLine + 1}:${found.originalColumn + 1}`
    })
  } catch {
    return []
  }
}
