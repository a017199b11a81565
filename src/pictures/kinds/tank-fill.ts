import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import type { Drawing, PictureKind, Sketch } from '../kind.ts'
import { MARGIN, marked, PAGE_WIDTH, type Piece, page, paragraph, sizes, space, stack } from '../page.ts'
import { Decimal, PictureWords } from '../words.ts'
import { TANK_HEIGHT, TANK_WIDTH, tankDrawing } from './tank-drawing.ts'

/**
 * How far to fill a tank and what goes in. Volumes are decimal texts in `unit`, an id that the words can print.
 * `inTank` is there already; `mark` is the distance of the tank's own marks.
 */
export const TankFill = z
  .strictObject({
    title: PictureWords.exactOptional(),
    amount: PictureWords,
    product: PictureWords.exactOptional(),
    unit: z.string().max(20),
    full: Decimal,
    fill: Decimal,
    inTank: Decimal.exactOptional(),
    mark: Decimal.exactOptional(),
    order: z.array(PictureWords).max(8),
  })
  .refine(({ full }) => Number(full) > 0, 'a tank holds something')
  .refine(({ full, fill }) => Number(fill) <= Number(full), 'the fill is more than the tank holds')
  .refine(
    ({ fill, inTank = '0' }) => Number(inTank) <= Number(fill),
    'there is more in the tank than the fill',
  )
export type TankFill = z.infer<typeof TankFill>

const GAP = 26

function draw(data: TankFill, sketch: Sketch): Drawing {
  const { theme, words } = sketch
  const title =
    data.title === undefined ? [] : [paragraph(words(data.title), theme, { weight: 'bold' }), space(12)]
  const picture = tankDrawing(data, theme, (value) => volume(value, data, sketch))
  const body = beside({ height: TANK_HEIGHT, at: (x, y) => picture(x, y) }, textColumn(data, sketch))
  return { svg: page([...title, body], theme), widthPx: PAGE_WIDTH, alt: describe(data, sketch) }
}

function beside(tank: Piece, text: Piece): Piece {
  return {
    height: Math.max(tank.height, text.height),
    at: (x, y) => [...tank.at(x, y), ...text.at(x + TANK_WIDTH + GAP, y)],
  }
}

function textColumn(data: TankFill, sketch: Sketch): Piece {
  const { theme, words } = sketch
  const width = PAGE_WIDTH - 2 * MARGIN - TANK_WIDTH - GAP
  const product =
    data.product === undefined ? [] : [paragraph(words(data.product), theme, { width, maxLines: 3 })]
  return stack([
    paragraph(words(data.amount), theme, { width, size: sizes.big, weight: 'bold', maxLines: 3 }),
    ...product,
    space(14),
    ...data.order.map((step, at) => marked(`${at + 1}`, words(step), theme, width)),
  ])
}

function volume(value: string, { unit }: TankFill, { say: inWords }: Sketch): string {
  return inWords(say('words.quantity', { quantity: { value, unit } }))
}

function describe(data: TankFill, sketch: Sketch): string {
  const { say: inWords, words } = sketch
  const fill = inWords(
    say('picture.tank-fill.alt', {
      fill: volume(data.fill, data, sketch),
      full: volume(data.full, data, sketch),
    }),
  )
  const inTank =
    data.inTank === undefined || Number(data.inTank) === 0 ? [] : [volume(data.inTank, data, sketch)]
  return [
    words(data.amount),
    fill,
    ...inTank.map((amount) => inWords(say('picture.tank-fill.alt-in-tank', { amount }))),
    ...data.order.map((step, at) => `${at + 1}. ${words(step)}`),
  ].join('\n')
}

export const tankFill: PictureKind<TankFill> = { schema: TankFill, draw }
