import { symbol, symbolCircle, symbolCross, symbolDiamond, symbolSquare, symbolTriangle } from 'd3-shape'
import { el, type SvgNode } from '../svg.ts'
import type { Theme } from '../theme.ts'

/** Lines differ by dashes and marks by shape, so that a chart in one tone can be read. */
const patterns = [
  { dashes: null, shape: symbolCircle },
  { dashes: '16 8', shape: symbolTriangle },
  { dashes: '4 7', shape: symbolDiamond },
  { dashes: '16 7 4 7', shape: symbolCross },
  { dashes: '26 10', shape: symbolCircle },
] as const

/** The untreated spot is always the finely dotted line with open squares. */
const untreatedPattern = { dashes: '2 6', shape: symbolSquare } as const

export function patternAt(at: number, isUntreated: boolean) {
  return isUntreated ? untreatedPattern : (patterns[at % patterns.length] ?? patterns[0])
}

interface MarkPlace {
  readonly x: number
  readonly y: number
  readonly theme: Theme
}

/** Plots have filled marks, the fifth and the untreated spot open ones. */
export function mark(
  { at, isUntreated }: { readonly at: number; readonly isUntreated: boolean },
  { x, y, theme }: MarkPlace,
): SvgNode {
  const isOpen = isUntreated || at === patterns.length - 1
  return el('path', {
    d: symbol(patternAt(at, isUntreated).shape, 250)() ?? '',
    transform: `translate(${x.toFixed(2)} ${y.toFixed(2)})`,
    fill: isOpen ? theme.paper : theme.ink,
    stroke: isOpen ? theme.ink : theme.paper,
    'stroke-width': isOpen ? 4 : 3,
  })
}
