import { type FontWeight, textWidth } from './fonts.ts'

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
  const lines: string[] = []
  let line = ''
  for (const word of paragraph.split(/\s+/).filter((part) => part !== '')) {
    const longer = line === '' ? word : `${line} ${word}`
    if (fits(longer, setting)) {
      line = longer
      continue
    }
    if (line !== '') lines.push(line)
    const pieces = breakWord(word, setting)
    lines.push(...pieces.slice(0, -1))
    line = pieces.at(-1) ?? ''
  }
  return line === '' ? lines : [...lines, line]
}

function breakWord(word: string, setting: Setting): string[] {
  const pieces: string[] = []
  let piece = ''
  for (const character of word) {
    if (piece !== '' && !fits(piece + character, setting)) {
      pieces.push(piece)
      piece = ''
    }
    piece += character
  }
  return [...pieces, piece]
}

function shorten(line: string, setting: Setting): string {
  let kept = [...line]
  while (kept.length > 1 && !fits(kept.join(''), setting)) kept = [...kept.slice(0, -2), '…']
  return kept.join('')
}

function fits(line: string, setting: Setting): boolean {
  return textWidth(line, setting.size, setting.weight ?? 'plain') <= setting.width
}
