import { convertRate, rateProblemStep } from '#src/calculator/rate/convert.ts'
import type { Need } from '#src/calculator/rate/figures.ts'
import { askFigures, FIGURES, letCorrect, withFields } from '#src/conversation/ask-figures.ts'
import { bareUnitsOf, unitSystemOf } from '#src/conversation/own-units.ts'
import { reader } from '#src/conversation/reader.ts'
import { type ReplyParts, reply } from '#src/conversation/reply.ts'
import { factValue, sayStep } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Event, Tools } from '#src/desk/command.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import {
  formOf,
  isSameForm,
  type Output,
  type Rate,
  type RateForm,
  type Strength,
} from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import type { UnitOf } from '#src/quantity/units.ts'
import { onBands, perGallon } from './beside.ts'
import { RateOptions } from './options.ts'

const FORM = { form: 'rate.form' } as const

const OPTION_OF: Record<Need, keyof RateOptions> = {
  'strength-ai': 'strength',
  'strength-ae': 'strength',
  density: 'density',
  'mix-density': 'density',
  output: 'output',
}

interface Read {
  readonly rate: Rate | undefined
  readonly strength: Strength | undefined
  readonly density: ReturnType<ReturnType<typeof reader>['density']>
  readonly output: Output | undefined
  readonly band: Quantity<UnitOf<'length'>> | undefined
  readonly row: Quantity<UnitOf<'length'>> | undefined
}

/** Says a rate in another unit, on bands, and what a gallon of the mix covers. */
export function convert(given: RateOptions, tools: Tools): Answer {
  const read = reader(tools.locale)
  const length = (option: 'band' | 'row') =>
    read.quantity(option, given[option], {
      expect: 'length',
      bareUnit: unitSystemOf(tools) === 'metric' ? 'cm' : 'in',
    })
  const figures: Read = {
    rate: read.rate('amount', given.amount),
    strength: read.strength('strength', given.strength),
    density: read.density('density', given.density),
    output: read.output('output', given.output),
    band: length('band'),
    row: length('row'),
  }
  const form = read.rateForm('to', given.to)
  if (read.problems.length > 0) return cannot(read.problems)
  if (figures.rate === undefined) return withoutRate(given, figures, tools)
  if ((figures.band === undefined) !== (figures.row === undefined))
    return ask(given, say('rate.needs.band'), figures.band === undefined ? 'band' : 'row')
  const plain = plainForm(figures.rate)
  const asksNothing =
    form === undefined && figures.band === undefined && isSameForm(plain, formOf(figures.rate))
  if (asksNothing) return ask(given, say('rate.needs.to'), 'to')
  return tell(given, figures.rate, form ?? plain, figures, tools)
}

function withoutRate(given: RateOptions, figures: Read, tools: Tools): Answer {
  if (figures.output === undefined || figures.band !== undefined || figures.row !== undefined)
    return ask(given, say('rate.needs.amount'), 'amount')
  const covers = perGallon(figures.output, bareUnitsOf(tools).area)
  if (!covers.ok) return cannot(covers.problems)
  return answer(covers.title, { facts: [...covers.facts], working: [...covers.working] })
}

function tell(given: RateOptions, rate: Rate, form: RateForm, figures: Read, tools: Tools): Answer {
  const { strength, density, output, band, row } = figures
  const converted = convertRate(rate, form, {
    ...(strength === undefined ? {} : { strengths: [strength] }),
    ...(density === undefined ? {} : { density }),
    ...(output === undefined ? {} : { output }),
  })
  if (!converted.ok) {
    const problem = sayStep(rateProblemStep(converted.error))
    return converted.error.kind === 'needs'
      ? ask(given, problem, OPTION_OF[converted.error.need])
      : cannot([problem])
  }
  const beside = [
    ...(band === undefined || row === undefined ? [] : [onBands(converted.value.rate, band, row)]),
    ...(output === undefined ? [] : [perGallon(output, bareUnitsOf(tools).area)]),
  ]
  const problems = beside.flatMap((one) => (one.ok ? [] : one.problems))
  if (problems.length > 0) return cannot(problems)
  const said = sayRate(converted.value.rate)
  const from = sayRate(rate)
  const found = beside.filter((one) => one.ok)
  return answer(found.find((one) => one.leads)?.title ?? say('rate.converted', { rate: said }), {
    lines: [
      ...(from.unit === said.unit ? [] : [say('rate.same-as', { from, to: said })]),
      ...found.flatMap((one) => (one.leads ? one.lines : [one.title])),
    ],
    facts: [
      { name: 'converted', value: factValue(said.value), unit: said.unit },
      ...found.flatMap(({ facts }) => facts),
    ],
    working: [...converted.value.working.map(sayStep), ...found.flatMap(({ working }) => working)],
  })
}

/** A rate without a wanted unit is told over one acre, thousand square feet or whatever it is over. */
function plainForm(rate: Rate): RateForm {
  if (rate.kind !== 'area') return formOf(rate)
  const per = rate.per.unit === 'ft2' ? '1000 ft2' : rate.per.unit
  return { ...formOf(rate), per: { value: '1', unit: per } } as RateForm
}

function answer(title: Text, parts: ReplyParts): Answer {
  return { reply: reply('answer', title, { ...parts, safety: { about: ['measuring'] } }) }
}

function cannot(lines: readonly Text[]): Answer {
  return { reply: reply('refusal', say('rate.cannot'), { lines: [...lines], audience: 'person' }) }
}

function ask(given: RateOptions, problem: Text, option: keyof RateOptions): Answer {
  return askFigures(given, problem, { ...FORM, fields: [option], shapes: { [option]: { required: true } } })
}

/** A figure that was asked for comes in; a wrong one is asked again, filled in. */
export function convertOn(given: RateOptions, event: Event, tools: Tools): Answer {
  if (event.kind !== 'submit' || event.step !== FIGURES) return convert(given, tools)
  const merged = RateOptions.parse(withFields(given, event.fields))
  const answered = convert(merged, tools)
  return { ...letCorrect(answered, FORM, event.fields), state: merged }
}
