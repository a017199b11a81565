import { alsoIn, type MeasuredGround, measureGround } from '#src/calculator/area/measure-ground.ts'
import type { Ground } from '#src/calculator/area/shape.ts'
import type { Worked } from '#src/calculator/worked.ts'
import { askFigures } from '#src/conversation/ask-figures.ts'
import { askFor } from '#src/conversation/ask-for.ts'
import { bareUnitsOf, unitSystemOf } from '#src/conversation/own-units.ts'
import { type Reader, reader } from '#src/conversation/reader.ts'
import { type Choice, reply } from '#src/conversation/reply.ts'
import { factValue, sayStep } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import type { AreaUnit } from '#src/quantity/units.ts'
import { groundPicture, type NamedShape } from './draw-ground.ts'
import { type AreaOptions, ShapeChoice } from './options.ts'
import { readPiece } from './read-piece.ts'
import { readShape } from './read-shape.ts'

export const FORM = 'ground.form'

/** Ground with its size, and how its pieces are called. */
export interface MeasuredArea {
  readonly ground: Ground
  readonly pieces: readonly NamedShape[]
  readonly without: readonly NamedShape[]
  readonly worked: Worked<MeasuredGround>
  readonly notes: readonly Text[]
}

export type Measured =
  | { readonly ok: true; readonly value: MeasuredArea }
  | { readonly ok: false; readonly ask: Answer }

/** Reads and measures everything that was typed; or asks for what is missing; or says what cannot be. */
export function measureArea(given: AreaOptions, tools: Tools): Measured {
  const read = reader(tools.locale)
  const bareUnit = bareUnitsOf(tools).length
  const shape = readShape(given, read, bareUnit)
  const more = readPieces(given.more, 'more', read, bareUnit)
  const minus = readPieces(given.minus, 'minus', read, bareUnit)
  const unit = readUnit(given.unit, read) ?? (unitSystemOf(tools) === 'metric' ? 'm2' : 'ft2')
  if (read.problems.length > 0) return { ok: false, ask: refuse(read.problems) }
  if (shape.kind === 'missing')
    return {
      ok: false,
      ask: askFigures(given, say(`ground.ask.${shape.shape}`), { form: FORM, fields: shape.fields }),
    }
  const first = shape.kind === 'shape' ? [{ shape: shape.shape, name: '', notes: [] }] : []
  const pieces = [...first, ...more]
  if (pieces.length === 0) return { ok: false, ask: askShape(given) }
  if (pieces.length + minus.length > MOST_PIECES)
    return { ok: false, ask: refuse([say('ground.too-many', { most: MOST_PIECES })]) }
  const ground = { pieces: pieces.map((one) => one.shape), without: minus.map((one) => one.shape) }
  const worked = measureGround(ground, unit)
  if (!worked.ok) return { ok: false, ask: refuse(worked.problems.map(sayStep)) }
  const notes = [...pieces, ...minus].flatMap((one) => one.notes)
  return { ok: true, value: { ground, pieces, without: minus, worked, notes } }
}

/** As many as one picture shows. */
const MOST_PIECES = 20

function readPieces(text: string | undefined, option: string, read: Reader, bareUnit: 'ft' | 'm') {
  const lines = (text ?? '')
    .split(/[;\n]/)
    .map((one) => one.trim())
    .filter((one) => one !== '')
  return lines.flatMap((one) => readPiece(one, option, read, bareUnit) ?? [])
}

/** `acre`, `ft2`: the unit alone, or with a number that is not looked at. */
function readUnit(text: string | undefined, read: Reader): AreaUnit | undefined {
  if (text === undefined) return undefined
  return read.quantity('unit', /^[\d.]/.test(text) ? text : `1 ${text}`, { expect: 'area' })?.unit
}

function refuse(problems: readonly Text[]): Answer {
  return {
    reply: reply('refusal', say('ground.cannot'), {
      lines: [...problems],
      audience: 'person',
      safety: { about: ['measuring'] },
    }),
  }
}

function askShape(given: AreaOptions): Answer {
  const shapes = ShapeChoice.options.map((shape) => ({
    label: say(`ground.shape-${shape}`),
    hint: say(`ground.shape-${shape}-hint`),
    set: { shape },
  }))
  return askFor(given, say('ground.which-shape'), shapes, {
    audience: 'person',
    safety: { about: ['measuring'] },
  })
}

/** The size first, the same in the next larger unit, then what it was made of, with its drawing. */
export function answerArea(given: AreaOptions, measured: MeasuredArea, choices: readonly Choice[]): Answer {
  const { worked, pieces, without, notes } = measured
  const { area } = worked.value
  const also = alsoIn(area, OTHER_UNIT[area.unit])
  const findings = worked.findings.map(sayStep)
  return {
    reply: reply(notes.length + findings.length > 0 ? 'heads-up' : 'answer', say('ground.area', { area }), {
      lines: [say('ground.same', { area: also }), ...madeOf(measured), ...notes, ...findings],
      facts: [
        { name: 'area', value: factValue(area.value), unit: area.unit },
        { name: 'area_also', value: factValue(also.value), unit: also.unit },
        ...worked.value.without.slice(0, 1).map(() => taken(worked.value)),
      ],
      working: worked.working.map(sayStep),
      files: [groundPicture(pieces, without, area)],
      choices: [...choices],
      safety: { about: ['measuring'] },
    }),
    state: given,
  }
}

/** Each piece under the number that it has in the drawing, then the sums. */
function madeOf({ worked, pieces, without }: MeasuredArea): Text[] {
  const all = [...pieces, ...without]
  if (all.length === 1) return worked.working.map(sayStep)
  const numbered = all.flatMap(({ name }, at) => {
    const step = worked.working[at]
    if (step === undefined) return []
    const told = { number: at + 1, what: sayStep(step) }
    return [name === '' ? say('ground.piece', told) : say('ground.piece-named', { ...told, name })]
  })
  return [...numbered, ...worked.working.slice(all.length).map(sayStep)]
}

/** In what else a size is told: crews think of lawns in square feet and of fields in acres. */
const OTHER_UNIT: Readonly<Record<AreaUnit, AreaUnit>> = {
  ft2: 'acre',
  '1000 ft2': 'acre',
  acre: 'ft2',
  m2: 'ha',
  '100 m2': 'ha',
  ha: 'm2',
}

function taken({ without, area }: MeasuredGround) {
  const all = without.reduce((sum, { value }) => sum + Number(value), 0)
  return { name: 'taken_out', value: factValue(String(all)), unit: area.unit }
}
