import { cutText, shownCost } from './cut.ts'

/** Lines that have room, and how many were left out or cut. */
export interface Fitted {
  readonly lines: readonly string[]
  readonly missing: number
}

/** Line break and mark (`> `, `-# `) that every shown line brings along. */
export const LINE_COST = 4
/** A line shorter than this says too little to be worth cutting. */
const WORTH_CUTTING = 60

export const costOf = (lines: readonly string[]): number =>
  lines.reduce((sum, line) => sum + shownCost(line) + LINE_COST, 0)

/** As many whole lines as cost at most `most`, then one that is cut at sense. */
export function fitLines(lines: readonly string[], most: number): Fitted {
  const fitted: string[] = []
  let left = most
  for (const [at, line] of lines.entries()) {
    const cost = shownCost(line) + LINE_COST
    if (cost <= left) {
      fitted.push(line)
      left -= cost
      continue
    }
    const cut = left > WORTH_CUTTING ? cutText(line, left - LINE_COST, shownCost) : ''
    return { lines: cut === '' ? fitted : [...fitted, cut], missing: lines.length - at }
  }
  return { lines: fitted, missing: 0 }
}

/** Shares room between safety lines and the answer's: neither pushes the other below half. */
export function shareRoom(room: number, safety: number, answer: number): { safety: number; answer: number } {
  if (safety + answer <= room) return { safety, answer }
  const half = Math.floor(room / 2)
  const forSafety = Math.min(safety, Math.max(half, room - answer))
  return { safety: forSafety, answer: room - forSafety }
}

/** Lines in pages that each cost at most `most`; a line longer than a page is continued on the next. */
export function pageLines(lines: readonly string[], most: number): string[][] {
  const pages: string[][] = [[]]
  let left = most
  for (const piece of lines.flatMap((line) => pieces(line, most - LINE_COST))) {
    const cost = shownCost(piece) + LINE_COST
    if (cost > left) {
      pages.push([])
      left = most
    }
    pages.at(-1)?.push(piece)
    left -= cost
  }
  return pages
}

function pieces(line: string, most: number): string[] {
  if (shownCost(line) <= most) return [line]
  const head = cutText(line, most, shownCost)
  const taken = head.replace(/ ?…$/, '').length
  if (taken === 0) return [head]
  return [head, ...pieces(line.slice(taken).trimStart(), most)]
}
