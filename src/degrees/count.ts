import { askFigures } from '#src/conversation/ask-figures.ts'
import { askFor } from '#src/conversation/ask-for.ts'
import { bareUnitsOf } from '#src/conversation/own-units.ts'
import { type Reader, reader } from '#src/conversation/reader.ts'
import { reply } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { decimalText } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { fail, ok, type Result } from '#src/quantity/result.ts'
import { readDay } from '#src/site/read-day.ts'
import { type DegreeDayMethod, turfBasesF } from '#src/weather/degree-days/method.ts'
import { type DatedTemperatures, readDailyTemperatures } from '#src/weather/degree-days/read-days.ts'
import { type DegreeDays, sumDegreeDays } from '#src/weather/degree-days/sum.ts'
import type { Reason } from '#src/weather/reason.ts'
import { monthsAsFigures } from './months.ts'
import { type DegreesOptions, LONGEST_PASTE } from './options.ts'

export const FORM = {
  form: 'degrees.form',
  shapes: { temperatures: { kind: 'long-text', maxLength: LONGEST_PASTE } },
} as const

type Unit = 'F' | 'C'

/** Asks what gives the total its meaning, then counts. */
export async function countDegrees(given: DegreesOptions, tools: Tools): Promise<Answer> {
  if (given.temperatures === undefined)
    return askFigures(given, say('degrees.ask.temperatures'), {
      ...FORM,
      fields: ['temperatures', 'base', 'start'],
      lines: [say('degrees.how')],
      about: ['general'],
    })
  const unit = given.unit ?? bareUnitsOf(tools).temperature
  const read = reader(tools.locale)
  const start = readStart(given.start, tools.today, read)
  if (read.problems.length > 0) return refuse(given, read.problems)
  const days = readDailyTemperatures(monthsAsFigures(given.temperatures), {
    unit,
    year: Number(tools.today.slice(0, 4)),
    locale: tools.locale.startsWith('es') ? 'es' : 'en',
    ...(start === undefined ? {} : { firstDay: start }),
  })
  if (!days.ok) return cannotRead(given, days.problems)
  if (given.method === undefined) return askMethod(given)
  if (given.base === undefined) return askBase(given, unit)
  const method = readMethod(given, given.method, unit, read)
  if (method === undefined) return refuse(given, read.problems)
  if (method === 'no-cap')
    return askFigures(given, say('degrees.ask.cap'), { ...FORM, fields: ['cap'], about: ['general'] })
  return answer(given, days.days, method, start ?? days.days[0]?.day ?? tools.today)
}

/** Counts what was typed whole, where nothing can be asked in between; else what is missing or wrong. */
export function sumTyped(given: DegreesOptions, tools: Tools): Result<DegreeDays, readonly Text[]> {
  const unit = given.unit ?? bareUnitsOf(tools).temperature
  const read = reader(tools.locale)
  const days = readDailyTemperatures(monthsAsFigures(given.temperatures ?? ''), {
    unit,
    year: Number(tools.today.slice(0, 4)),
    locale: tools.locale.startsWith('es') ? 'es' : 'en',
  })
  if (!days.ok) return fail(days.problems.map(sayReason))
  const method = given.method === undefined ? undefined : readMethod(given, given.method, unit, read)
  if (read.problems.length > 0) return fail(read.problems)
  if (method === undefined) return fail([say('degrees.ask.base')])
  if (method === 'no-cap') return fail([say('degrees.ask.cap')])
  const summed = sumDegreeDays(days.days, method, days.days[0]?.day ?? tools.today)
  return summed.ok ? ok(summed.value) : fail(summed.problems.map(sayReason))
}

function readStart(text: string | undefined, today: string, read: Reader): string | undefined {
  if (text === undefined) return undefined
  const day = readDay(text, today)
  if (day === null) read.refuse('start', say('area.problem.day', { text }))
  return day ?? undefined
}

/** Base and cap in degrees of the unit counted in. */
function readMethod(
  given: DegreesOptions,
  name: NonNullable<DegreesOptions['method']>,
  unit: Unit,
  read: Reader,
): DegreeDayMethod | 'no-cap' | undefined {
  const degrees = (option: 'base' | 'cap') => {
    const found = read.quantity(option, given[option], { expect: 'temperature', bareUnit: unit })
    return found === undefined ? undefined : decimalText(amountIn(found, unit))
  }
  const [base, cap] = [degrees('base'), degrees('cap')]
  if (base === undefined || read.problems.length > 0) return undefined
  if (name === 'average') return { name, base, unit }
  if (name === 'sine') return { name, base, unit, ...(cap === undefined ? {} : { cap }) }
  return cap === undefined ? 'no-cap' : { name, base, cap, unit }
}

function askMethod(given: DegreesOptions): Answer {
  return askFor(
    given,
    say('degrees.ask.method'),
    (['average', 'capped', 'sine'] as const).map((method) => ({
      label: say(`degrees.method.${method}`),
      hint: say(`degrees.method.${method}-hint`),
      set: { method },
    })),
    { lines: [say('degrees.methods-differ')], audience: 'person' },
  )
}

/** The bases in use on turf, to press; any other is typed. */
function askBase(given: DegreesOptions, unit: Unit): Answer {
  const asked = askFigures(given, say('degrees.ask.base'), { ...FORM, fields: ['base'], about: ['general'] })
  const bases = unit === 'C' ? [] : turfBasesF
  const choices = bases.map((base) => ({
    label: say('words.quantity', { quantity: { value: base, unit: 'F' } }),
    to: { step: 'set', value: { base: `${base} F` } },
  }))
  return { ...asked, reply: { ...asked.reply, choices } }
}

function answer(
  given: DegreesOptions,
  days: readonly DatedTemperatures[],
  method: DegreeDayMethod,
  firstDay: string,
): Answer {
  const summed = sumDegreeDays(days, method, firstDay)
  if (!summed.ok) return cannotRead(given, summed.problems)
  const { value } = summed
  return {
    reply: reply(value.reasons.length > 0 ? 'heads-up' : 'answer', say('degrees.total', totals(value)), {
      lines: [
        sayMethod(method),
        say('degrees.days', {
          count: value.counted,
          first: { day: value.firstDay },
          last: { day: value.lastDay },
        }),
        ...value.reasons.map(sayReason),
      ],
      facts: [
        { name: 'degree_days', value: factValue(value.total), unit: `${method.unit}·day` },
        { name: 'method', value: method.name },
        { name: 'base', value: factValue(method.base), unit: method.unit },
        { name: 'first_day', value: value.firstDay },
        { name: 'last_day', value: value.lastDay },
        { name: 'days_counted', value: value.counted },
        { name: 'days_missing', value: value.missing.length },
      ],
      working: value.running.map((one) =>
        say('degrees.day', { day: { day: one.day }, degrees: one.degreeDays, total: one.total }),
      ),
      safety: { about: ['general'] },
    }),
    state: given,
  }
}

const totals = ({ total, firstDay, method }: DegreeDays) => ({
  total: factValue(total),
  unit: say(`degrees.unit.${method.unit}`),
  first: { day: firstDay },
})

function sayMethod(method: DegreeDayMethod): Text {
  const at = (value: string) => ({ value, unit: method.unit })
  const cap = method.name === 'average' ? undefined : method.cap
  return say(cap === undefined ? 'degrees.by' : 'degrees.by-capped', {
    method: say(`degrees.method.${method.name}`),
    base: at(method.base),
    ...(cap === undefined ? {} : { cap: at(cap) }),
  })
}

const sayReason = (one: Reason): Text => say(one.id, one.with)

function cannotRead(given: DegreesOptions, problems: readonly Reason[]): Answer {
  const [first, ...rest] = problems
  if (first?.outcome !== 'question' || rest.length > 0) return refuse(given, problems.map(sayReason))
  return askFigures(given, sayReason(first), {
    ...FORM,
    fields: ['temperatures', 'start'],
    about: ['general'],
  })
}

const MOST_PROBLEMS = 8

function refuse(given: DegreesOptions, problems: readonly Text[]): Answer {
  return {
    reply: reply('refusal', say('degrees.cannot'), {
      lines: problems.slice(0, MOST_PROBLEMS),
      audience: 'person',
    }),
    state: given,
  }
}
