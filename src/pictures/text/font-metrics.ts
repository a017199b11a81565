/** How far each character moves the pen, in the font's own units. */
export interface FontMetrics {
  readonly unitsPerEm: number
  /** How far letters reach above their line. */
  readonly ascent: number
  readonly advance: (codePoint: number) => number
  /** Whether the typeface has a sign for it; else an empty box stands there. */
  readonly has: (codePoint: number) => boolean
}

/**
 * Reads the widths out of a TrueType file: tables head, hhea, hmtx and cmap (format 4).
 * Source: OpenType specification 1.9, chapters of these tables.
 */
export function readFont(file: Buffer): FontMetrics {
  const table = findTables(file)
  const unitsPerEm = file.readUInt16BE(table('head') + 18)
  const widths = file.readUInt16BE(table('hhea') + 34)
  const hmtx = table('hmtx')
  const glyphOf = readCharacterMap(file, table('cmap'))
  const advance = (codePoint: number) =>
    file.readUInt16BE(hmtx + 4 * Math.min(glyphOf(codePoint), widths - 1))
  // Of letters that nearly all text is made of; the rest is looked up each time.
  const common = Uint16Array.from({ length: COMMON }, (_, codePoint) => advance(codePoint))
  return {
    unitsPerEm,
    ascent: file.readInt16BE(table('hhea') + 4),
    has: (codePoint) => glyphOf(codePoint) !== 0,
    advance: (codePoint) => common[codePoint] ?? advance(codePoint),
  }
}

/** Latin letters, with all that stand on them: Latin Extended-B ends here. */
const COMMON = 0x250

function findTables(file: Buffer): (tag: string) => number {
  const tables = new Map<string, number>()
  for (let at = 12; at < 12 + 16 * file.readUInt16BE(4); at += 16) {
    tables.set(file.toString('latin1', at, at + 4), file.readUInt32BE(at + 8))
  }
  return (tag) => {
    const offset = tables.get(tag)
    if (offset === undefined) throw new Error(`Cannot read the font: it has no table "${tag}"`)
    return offset
  }
}

/** Glyph number of a character; 0, the empty box, when the font lacks it. */
function readCharacterMap(file: Buffer, cmap: number): (codePoint: number) => number {
  const start = findFormat4(file, cmap)
  const segments = file.readUInt16BE(start + 6) / 2
  const ends = start + 14
  const starts = ends + 2 * segments + 2
  const deltas = starts + 2 * segments
  const ranges = deltas + 2 * segments
  return (codePoint) => {
    if (codePoint > 0xffff) return 0
    for (let segment = 0; segment < segments; segment++) {
      if (codePoint > file.readUInt16BE(ends + 2 * segment)) continue
      const first = file.readUInt16BE(starts + 2 * segment)
      if (codePoint < first) return 0
      const delta = file.readUInt16BE(deltas + 2 * segment)
      const range = file.readUInt16BE(ranges + 2 * segment)
      if (range === 0) return (codePoint + delta) & 0xffff
      const glyph = file.readUInt16BE(ranges + 2 * segment + range + 2 * (codePoint - first))
      return glyph === 0 ? 0 : (glyph + delta) & 0xffff
    }
    return 0
  }
}

function findFormat4(file: Buffer, cmap: number): number {
  for (let entry = 0; entry < file.readUInt16BE(cmap + 2); entry++) {
    const offset = cmap + file.readUInt32BE(cmap + 4 + 8 * entry + 4)
    if (file.readUInt16BE(offset) === 4) return offset
  }
  throw new Error('Cannot read the font: no character map of format 4')
}
