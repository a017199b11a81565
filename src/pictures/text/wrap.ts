import { type FontWeight, textUnits, widthOfUnits } from './fonts.ts'

/** How a text is set. `size` and `width` in units of the picture. */
export interface Setting {
  readonly size: number
  readonly width: number
  readonly weight?: FontWeight
  /** Further lines are dropped and the last one ends in an ellipsis. */
  readonly maxLines?: number
}

/** Breaks a text into lines that fit; a word longer than a line is broken inside. */
export function wrapText(text: string, setting: Setting): string[] {
  const lines = text.split(/\r?\n/).flatMap((paragraph) => wrapParagraph(paragraph, setting))
  const most = setting.maxLines ?? Number.POSITIVE_INFINITY
  if (lines.length <= most) return lines
  const kept = lines.slice(0, most)
  return [...kept.slice(0, -1), shorten(`${kept.at(-1) ?? ''}…`, setting)]
}

function wrapParagraph(paragraph: string, setting: Setting): string[] {
  const { weight = 'plain' } = setting
  const lines: string[] = []
  const blank = textUnits(' ', weight)
  let [line, units] = ['', 0]
  for (const word of paragraph.split(/\s+/).filter((part) => part !== '')) {
    const own = textUnits(word, weight)
    const longer = line === '' ? own : units + blank + own
    if (fits(longer, setting)) {
      line = line === '' ? word : `${line} ${word}`
      units = longer
      continue
    }
    if (line !== '') lines.push(line)
    const pieces = breakWord(word, setting)
    lines.push(...pieces.slice(0, -1))
    line = pieces.at(-1) ?? ''
    units = textUnits(line, weight)
  }
  return line === '' ? lines : [...lines, line]
}

function breakWord(word: string, setting: Setting): string[] {
  const { weight = 'plain' } = setting
  const pieces: string[] = []
  let [piece, units] = ['', 0]
  for (const character of word) {
    const own = textUnits(character, weight)
    if (piece !== '' && !fits(units + own, setting)) {
      pieces.push(piece)
      piece = ''
      units = 0
    }
    piece += character
    units += own
  }
  return [...pieces, piece]
}

function shorten(line: string, setting: Setting): string {
  const { weight = 'plain' } = setting
  let kept = [...line]
  while (kept.length > 1 && !fits(textUnits(kept.join(''), weight), setting))
    kept = [...kept.slice(0, -2), '…']
  return kept.join('')
}

function fits(units: number, { size, width, weight = 'plain' }: Setting): boolean {
  return widthOfUnits(units, size, weight) <= width
}
