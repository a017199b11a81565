import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import type { Drawing, PictureKind, Sketch } from '../kind.ts'
import {
  MARGIN,
  marked,
  PAGE_WIDTH,
  type Piece,
  page,
  paragraph,
  rule,
  sizes,
  space,
  stack,
} from '../page.ts'
import { el } from '../svg.ts'
import { Decimal, PictureWords } from '../words.ts'

const Area = z.strictObject({
  name: PictureWords,
  squareFeet: z.union([z.number().nonnegative(), Decimal]),
  turfs: z.array(PictureWords).max(8),
})

/** A property on one screen: its areas with their size and grasses, and what to mind. */
export const SiteCard = z.strictObject({
  name: PictureWords,
  address: PictureWords.exactOptional(),
  areas: z.array(Area).max(20),
  mind: z.array(PictureWords).max(10),
})
export type SiteCard = z.infer<typeof SiteCard>
type Area = z.infer<typeof Area>

const INDENT = 24

function draw(data: SiteCard, sketch: Sketch): Drawing {
  const { theme, words } = sketch
  const address = data.address === undefined ? [] : [paragraph(words(data.address), theme, { quiet: true })]
  const mind =
    data.mind.length === 0 ? [] : [rule(theme), ...data.mind.map((one) => marked('!', words(one), theme))]
  const pieces = [
    paragraph(words(data.name), theme, { size: sizes.title, weight: 'bold', maxLines: 3 }),
    ...address,
    ...data.areas.flatMap((area) => [space(16), areaPiece(area, sketch)]),
    ...mind,
  ]
  return { svg: page(pieces, theme), widthPx: PAGE_WIDTH, alt: describe(data, sketch) }
}

function areaPiece(area: Area, sketch: Sketch): Piece {
  const { theme, words } = sketch
  const width = PAGE_WIDTH - 2 * MARGIN - INDENT
  const body = stack([
    paragraph(`${sizeOf(area, sketch)}  ${words(area.name)}`, theme, { width, weight: 'bold', maxLines: 3 }),
    paragraph(turfsOf(area, sketch), theme, { width, maxLines: 4 }),
  ])
  return {
    height: body.height,
    at: (x, y) => [
      el('rect', { x, y: y + 4, width: 8, height: body.height - 4, fill: theme.ink }),
      ...body.at(x + INDENT, y),
    ],
  }
}

function sizeOf(area: Area, sketch: Sketch): string {
  const quantity = { value: String(area.squareFeet), unit: 'ft2' }
  return sketch.say(say('words.quantity', { quantity }))
}

function turfsOf(area: Area, { say: inWords, words }: Sketch): string {
  return area.turfs.length === 0
    ? inWords(say('picture.site-card.no-turf'))
    : area.turfs.map(words).join(', ')
}

function describe(data: SiteCard, sketch: Sketch): string {
  const { words } = sketch
  const areas = data.areas.map(
    (area) => `${words(area.name)}: ${sizeOf(area, sketch)}, ${turfsOf(area, sketch)}`,
  )
  return [words(data.name), ...areas, ...data.mind.map(words)].join('\n')
}

export const siteCard: PictureKind<SiteCard> = { schema: SiteCard, draw }
