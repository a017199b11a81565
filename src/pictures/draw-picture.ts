import type { Text } from '#src/conversation/text.ts'
import { type AnyPictureKind, closeKind } from './kind.ts'
import { areaShape } from './kinds/area-shape.ts'
import { controlChart } from './kinds/control-chart.ts'
import { keyCompare } from './kinds/key-compare.ts'
import { keyQuestion } from './kinds/key-question.ts'
import { keyState } from './kinds/key-state.ts'
import { PHOTO_SHEET, photoSheet } from './kinds/photo-sheet.ts'
import { ratingScale } from './kinds/rating-scale.ts'
import { siteCard } from './kinds/site-card.ts'
import { tankFill } from './kinds/tank-fill.ts'
import { trend } from './kinds/trend.ts'
import { truckCard } from './kinds/truck-card.ts'
import { renderPng } from './render.ts'
import { writeSvg } from './svg.ts'
import { type ThemeName, themes } from './theme.ts'

/** Every picture that a reply may name. */
const kinds: Readonly<Record<string, AnyPictureKind>> = {
  'site-card': closeKind(siteCard),
  'tank-fill': closeKind(tankFill),
  'area-shape': closeKind(areaShape),
  trend: closeKind(trend),
  'control-chart': closeKind(controlChart),
  'rating-scale': closeKind(ratingScale),
  'truck-card': closeKind(truckCard),
  'key-question': closeKind(keyQuestion),
  'key-state': closeKind(keyState),
  'key-compare': closeKind(keyCompare),
  [PHOTO_SHEET]: closeKind(photoSheet),
}

export const pictureNames: readonly string[] = Object.keys(kinds)

export interface PictureOptions {
  /** Says a sentence in the reader's language, as plain text. */
  readonly say: (text: Text) => string
  readonly theme: ThemeName
}

export interface Picture {
  readonly name: string
  readonly type: 'image/png'
  readonly bytes: Uint8Array
  /** At most 1,000 characters: what somebody reads who cannot see it. */
  readonly alt: string
}

/** The most that messengers take as a picture's description, a little less than Discord's 1,024. */
const MOST_ALT = 1000

/** The picture as SVG text; the same data give the same text. */
export function pictureSvg(name: string, data: unknown, options: PictureOptions) {
  const kind = Object.hasOwn(kinds, name) ? kinds[name] : undefined
  if (kind === undefined)
    throw new Error(`Cannot draw "${name}": the pictures are ${pictureNames.join(', ')}`)
  const { say, theme } = options
  const words = (one: string | Text) => (typeof one === 'string' ? one : say(one))
  const drawing = kind(data, { theme: themes[theme], say, words })
  return { svg: writeSvg(drawing.svg), widthPx: drawing.widthPx, alt: shortened(drawing.alt) }
}

/**
 * Draws a picture that a reply names, off the event loop.
 * @throws Error when there is no such picture; ZodError when the data are not what it is drawn from
 */
export async function drawPicture(name: string, data: unknown, options: PictureOptions): Promise<Picture> {
  const { svg, widthPx, alt } = pictureSvg(name, data, options)
  return { name: `${name}.png`, type: 'image/png', bytes: await renderPng(svg, { widthPx }), alt }
}

function shortened(alt: string): string {
  return alt.length <= MOST_ALT ? alt : `${alt.slice(0, MOST_ALT - 1).trimEnd()}…`
}
