import { z } from 'zod'
import { group, type SvgNode } from '../svg.ts'
import type { Theme } from '../theme.ts'
import { figures } from './index.ts'
import { FIGURE_SIDE, penFor } from './pen.ts'

/** A figure by the ids of the key: a character and one of its states. */
export interface FigureName {
  readonly character: string
  readonly state: string
}

export function hasFigure({ character, state }: FigureName): boolean {
  return Object.hasOwn(figures, character) && Object.hasOwn(figures[character] ?? {}, state)
}

/** Id of the sentence that describes a figure. */
export function figureWordsId({ character, state }: FigureName): string {
  return `figure.${character}.${state}`
}

/** For schemas of data that name figures. */
export const DrawnState = z
  .strictObject({ character: z.string(), state: z.string() })
  .refine(hasFigure, 'there is no figure of this character and state')

/** One figure with its top left corner at a place, in a square of `side`. Throws if there is none. */
export function placeFigure(
  name: FigureName,
  theme: Theme,
  at: readonly [number, number],
  side: number,
): SvgNode {
  const figure = hasFigure(name) ? figures[name.character]?.[name.state] : undefined
  if (figure === undefined) throw new Error(`Cannot draw ${name.character} ${name.state}: there is no figure`)
  return group(figure(penFor(theme)), `translate(${at[0]} ${at[1]}) scale(${side / FIGURE_SIDE})`)
}
