import { type Calculated, strictest } from '#src/calculator/worked.ts'
import { askFigures } from '#src/conversation/ask-figures.ts'
import { askFor } from '#src/conversation/ask-for.ts'
import { unitSystemOf } from '#src/conversation/own-units.ts'
import { reply } from '#src/conversation/reply.ts'
import { factValue, sayStep } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { handyUnit } from '#src/mixing/handy-unit.ts'
import { compareNumbers } from '#src/quantity/big.ts'
import { convert, type Quantity } from '#src/quantity/quantity.ts'
import { forPpm, fromLiquid, fromPowder, fromStronger, type Portion, ppmMade, type Units } from './find.ts'
import type { DiluteOptions } from './options.ts'
import { type Figures, readDilution, type Spray, type Wanted } from './read.ts'

export const FORM = { form: 'dilution.form' } as const

const ABOUT = ['measuring', 'mixing']

/** Product for a spray of so many percent or parts per million; asks for what is missing. */
export function dilution(given: DiluteOptions, tools: Tools): Answer {
  const isMetric = unitSystemOf(tools) === 'metric'
  const figures = readDilution(given, tools.locale, isMetric)
  if (figures.problems.length > 0) return cannot(given, figures.problems)
  const { spray, wanted, added } = figures
  if (spray === undefined) return ask(given, say('dilution.needs-amount'))
  if (added !== undefined) return tellPpm(given, figures, spray)
  if (wanted === undefined) return ask(given, say('dilution.needs-wanted'))
  const units: Units = isMetric ? { mass: 'g', volume: 'L' } : { mass: 'lb', volume: 'gal' }
  const found = find(given, figures, { spray, wanted }, units)
  if ('reply' in found) return found
  if (!found.ok) return cannot(given, found.problems.map(sayStep))
  return tell(given, { spray, wanted }, found)
}

interface Goal {
  readonly spray: Spray
  readonly wanted: Wanted
}

function find(
  given: DiluteOptions,
  { strength }: Figures,
  { spray, wanted }: Goal,
  units: Units,
): Calculated<Portion> | Answer {
  if (wanted.kind === 'ppm') {
    return spray.kind === 'volume'
      ? forPpm(spray.of, wanted.value, strength, units)
      : cannot(given, [say('dilution.needs-volume')])
  }
  if (strength === undefined) return ask(given, say('dilution.needs-strength'), ['strength'])
  if (spray.kind === 'mass')
    return strength.kind === 'percent'
      ? fromStronger(spray.of, wanted.value, strength.value)
      : cannot(given, [say('dilution.needs-volume')])
  if (strength.kind === 'mass-per-volume') return fromLiquid(spray.of, wanted.value, strength, units)
  if (given.form === undefined) return askForm(given)
  return given.form === 'powder'
    ? fromPowder(spray.of, wanted.value, strength.value, units)
    : fromStronger(spray.of, wanted.value, strength.value)
}

function tell(
  given: DiluteOptions,
  { spray, wanted }: Goal,
  found: Extract<Calculated<Portion>, { ok: true }>,
): Answer {
  const { product, carrier } = found.value
  const shown = onAScale(handyUnit(product))
  const aim = { value: wanted.value, unit: wanted.kind === 'ppm' ? 'ppm' : '%' }
  const isActive = wanted.kind === 'ppm' && given.strength === undefined
  const title = isActive
    ? say('dilution.active', { product: shown })
    : say('dilution.product', { product: shown })
  return {
    reply: reply(strictest(found.findings), title, {
      lines: [
        carrier === undefined
          ? say('dilution.makes', { spray: spray.of, aim })
          : say('dilution.makes-with', { spray: spray.of, aim, carrier }),
        say('dilution.label-first'),
      ],
      facts: [
        { name: 'concentrate', value: factValue(shown.value), unit: shown.unit },
        ...(carrier === undefined
          ? []
          : [{ name: 'carrier', value: factValue(carrier.value), unit: carrier.unit }]),
      ],
      working: found.working.map(sayStep),
      safety: { about: ABOUT },
    }),
    state: given,
  }
}

/** A small part of an ounce is weighed in grams. */
function onAScale(amount: Quantity): Quantity {
  return amount.unit === 'oz wt' && compareNumbers(amount.value, '0.5') < 0 ? convert(amount, 'g') : amount
}

function tellPpm(given: DiluteOptions, { added, strength }: Figures, spray: Spray): Answer {
  if (spray.kind !== 'volume' || added === undefined) return cannot(given, [say('dilution.needs-volume')])
  const found = ppmMade(spray.of, added, strength)
  if (!found.ok) return cannot(given, found.problems.map(sayStep))
  const ppm = { value: found.value, unit: 'ppm' }
  return {
    reply: reply('answer', say('dilution.ppm', { ppm }), {
      lines: [say('dilution.ppm-of', { added, spray: spray.of })],
      facts: [{ name: 'ppm', value: factValue(found.value), unit: 'ppm' }],
      working: found.working.map(sayStep),
      safety: { about: ABOUT },
    }),
    state: given,
  }
}

/** 50 % of a powder is by weight, 50 % of a liquid is mostly by volume: they are not the same amount. */
function askForm(given: DiluteOptions): Answer {
  return askFor(
    given,
    say('dilution.which-form'),
    [
      { label: say('dilution.powder'), set: { form: 'powder' } },
      { label: say('dilution.liquid'), set: { form: 'liquid' } },
    ],
    { audience: 'person', safety: { about: ABOUT } },
  )
}

function ask(given: DiluteOptions, title: Text, only?: readonly (keyof DiluteOptions)[]): Answer {
  const fields = only ?? ['amount', 'wanted', 'strength']
  return askFigures(given, title, { ...FORM, fields, about: ABOUT })
}

function cannot(given: DiluteOptions, lines: readonly Text[]): Answer {
  return {
    reply: reply('refusal', say('dilution.cannot'), {
      lines: [...lines],
      audience: 'person',
      safety: { about: ABOUT },
    }),
    state: given,
  }
}
