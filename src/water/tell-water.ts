import { sulfateForWater, type WaterTest } from '#src/calculator/spot/hard-water.ts'
import { waterSpreadPercent, weighWater } from '#src/calculator/spot/water.ts'
import { type Calculated, strictest } from '#src/calculator/worked.ts'
import { askFigures } from '#src/conversation/ask-figures.ts'
import { unitSystemOf } from '#src/conversation/own-units.ts'
import { type Reader, reader } from '#src/conversation/reader.ts'
import { type ReplyParts, reply } from '#src/conversation/reply.ts'
import { factValue, sayStep } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { big } from '#src/quantity/big.ts'
import { readNumber } from '#src/quantity/number.ts'
import { amountIn, type Quantity, quantity } from '#src/quantity/quantity.ts'
import type { VolumeRate } from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import { plainText } from '#src/quantity/text.ts'
import type { VolumeUnit } from '#src/quantity/units.ts'
import type { WaterOptions } from './options.ts'

export const FORM = { form: 'water.form' } as const

const IONS = [
  'calcium',
  'magnesium',
  'sodium',
  'potassium',
  'iron',
] as const satisfies readonly (keyof WaterTest)[]

type Water = Quantity<VolumeUnit>

/** The weight of so much water, and the ammonium sulfate that its hardness asks for. */
export function tellWater(given: WaterOptions, tools: Tools): Answer {
  const read = reader(tools.locale)
  const isMetric = unitSystemOf(tools) === 'metric'
  const amount = read.quantity('amount', given.amount, {
    expect: 'volume',
    ounce: 'fl oz',
    bareUnit: isMetric ? 'L' : 'gal',
  })
  const test = readTest(given, read, tools.locale)
  if (read.problems.length > 0) return cannot(given, read.problems)
  const isTested = Object.keys(test).length > 0
  if (isTested) return tellSulfate(given, amount, sulfateForWater(test))
  if (amount !== undefined) return tellWeight(given, amount, isMetric)
  return askFigures(given, say('water.needs'), { ...FORM, fields: IONS })
}

const PPM = /^(?:ppm|mg\/l)?$/i

function readTest(given: WaterOptions, read: Reader, language: string): WaterTest {
  const locale = language.startsWith('es') ? 'es' : 'en'
  const typed = IONS.flatMap((ion) => {
    const text = given[ion]
    if (text === undefined) return []
    const number = readNumber(plainText(text), { locale, expected: 'fraction' })
    if (number.ok && PPM.test(number.value.rest)) return [[ion, number.value.value] as const]
    read.refuse(ion, say('water.ppm', { text }))
    return []
  })
  return Object.fromEntries(typed)
}

function tellWeight(given: WaterOptions, amount: Water, isMetric: boolean): Answer {
  const weight = weighWater(amount, isMetric ? 'kg' : 'lb')
  return answer(given, 'answer', say('water.weighs', { amount, weight }), {
    facts: [{ name: 'water_weight', value: factValue(weight.value), unit: weight.unit }],
    working: [say('water.per-gallon', { spread: { value: waterSpreadPercent(), unit: '%' } })],
  })
}

function tellSulfate(given: WaterOptions, amount: Water | undefined, found: Calculated<VolumeRate>): Answer {
  if (!found.ok) return cannot(given, found.problems.map(sayStep))
  const rate = sayRate(found.value)
  const whole =
    amount === undefined
      ? undefined
      : quantity(big(found.value.value).times(amountIn(amount, 'gal')).div(100), 'lb')
  return answer(given, strictest(found.findings), say('water.sulfate', { rate }), {
    lines: [
      ...(whole === undefined || amount === undefined
        ? []
        : [say('water.sulfate-for', { amount, sulfate: whole })]),
      ...found.findings.map(sayStep),
      say('water.sulfate-usual'),
    ],
    facts: [
      { name: 'sulfate', value: factValue(rate.value), unit: rate.unit },
      ...(whole === undefined
        ? []
        : [{ name: 'sulfate_total', value: factValue(whole.value), unit: whole.unit }]),
    ],
    working: found.working.map(sayStep),
  })
}

function answer(
  given: WaterOptions,
  outcome: 'answer' | ReturnType<typeof strictest>,
  title: Text,
  parts: ReplyParts,
): Answer {
  return { reply: reply(outcome, title, { ...parts, safety: { about: ['measuring'] } }), state: given }
}

function cannot(given: WaterOptions, lines: readonly Text[]): Answer {
  return {
    reply: reply('refusal', say('water.cannot'), { lines: [...lines], audience: 'person' }),
    state: given,
  }
}
