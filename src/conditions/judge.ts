import { field } from '#src/conversation/fields.ts'
import { reader } from '#src/conversation/reader.ts'
import { type Fact, reply } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'
import { readData } from '#src/project.ts'
import { judgeCrewHeat } from '#src/weather/crew-heat.ts'
import { type Guidance, loadGuidance } from '#src/weather/guidance.ts'
import { dryingOf, readAir } from '#src/weather/humidity.ts'
import { mayIToday } from '#src/weather/may-i-today.ts'
import { inversionSigns, type LabelDay, type Readings } from '#src/weather/readings.ts'
import { type Reason, strictestOf } from '#src/weather/reason.ts'
import { labelDayOf, NO_LABEL } from './label-day.ts'
import type { ConditionsOptions } from './options.ts'

let kept: Guidance | null = null
const guidance = () => {
  kept ??= loadGuidance(readData)
  return kept
}

/** May it go out today? The label's own limits first, then what is published where it is silent. */
export async function judgeDay(given: ConditionsOptions, tools: Tools): Promise<Answer> {
  const found =
    given.product === undefined
      ? null
      : pick(given, 'product', given.product, await tools.store.labels.list())
  if (found !== null && !found.ok) return { ...found.ask, state: given }
  const entry = found?.value.live?.body
  const read = reader(tools.locale)
  const readings = readingsOf(given, read)
  if (read.problems.length > 0)
    return {
      reply: reply('refusal', say('conditions.cannot'), { lines: [...read.problems], audience: 'person' }),
    }
  const label: LabelDay = entry === undefined ? NO_LABEL : labelDayOf(entry)
  const day = mayIToday(label, readings, guidance())
  const heat = crewHeat(given, readings)
  const reasons = [...day.reasons, ...heat.reasons]
  const outcome = strictestOf(reasons)
  const stops = reasons.filter((one) => one.outcome === outcome && outcome !== 'answer')
  const [first] = stops
  return {
    reply: reply(outcome, first === undefined ? say('conditions.fine') : sayReason(first), {
      lines: [
        ...(first === undefined ? [] : sayLabel(first)),
        ...reasons.filter((one) => one !== first).flatMap((one) => [sayReason(one), ...sayLabel(one)]),
        ...(entry === undefined ? [say('conditions.no-label')] : []),
      ],
      facts: [...airFacts(readings), ...heat.facts],
      choices: stops.some(({ id }) => ASKS_FOR_SIGNS.has(id)) ? signChoices() : [],
      form: outcome === 'question' ? formFor(stops) : null,
      safety: { about: ['wind', 'heat', 'rain'] },
    }),
    state: given,
  }
}

/** Questions that a sign of still, layered air answers. */
const ASKS_FOR_SIGNS = new Set(['weather.calm-ask', 'weather.hour-ask'])

/** Which option answers which question. */
const OPTION_OF: Readonly<Record<string, keyof ConditionsOptions>> = {
  'weather.droplets-unknown': 'droplets',
  'weather.rain-unknown': 'rain_in',
  'weather.temperature-unknown': 'temperature',
  'weather.wind-unknown': 'wind',
}

/** One short form for everything that the label wants to know. */
function formFor(stops: readonly Reason[]) {
  const asked = [...new Set(stops.map(({ id }) => OPTION_OF[id]).filter((option) => option !== undefined))]
  if (asked.length === 0) return null
  return {
    title: say('conditions.form.title'),
    open: say('common.fill-in'),
    fields: asked.map((option) => field('conditions.form', option, { required: true, hint: true })),
    to: { step: 'figures' },
  }
}

function readingsOf(given: ConditionsOptions, read: ReturnType<typeof reader>): Readings {
  const wind = read.quantity('wind', given.wind, { expect: 'speed', bareUnit: 'mph', allowZero: true })
  const gust = read.quantity('gust', given.gust, { expect: 'speed', bareUnit: 'mph', allowZero: true })
  const temperature = read.quantity('temperature', given.temperature, {
    expect: 'temperature',
    bareUnit: 'F',
  })
  const high = read.quantity('forecast_high', given.forecast_high, { expect: 'temperature', bareUnit: 'F' })
  const humidity = given.humidity === undefined ? undefined : readPercent(given.humidity, read)
  return {
    ...(wind === undefined ? {} : { wind }),
    ...(gust === undefined ? {} : { gust }),
    ...(given.toward === undefined ? {} : { towards: [given.toward] }),
    ...(temperature === undefined ? {} : { temperature }),
    ...(high === undefined ? {} : { forecastHigh: high }),
    ...(humidity === undefined ? {} : { humidityPercent: humidity }),
    ...(given.rain_in === undefined ? {} : { rainInHours: given.rain_in }),
    ...(given.sign === undefined ? {} : { inversion: signsOf(given.sign) }),
    ...(given.droplets === undefined ? {} : { droplets: given.droplets.toLowerCase() }),
    turf: {
      ...(given.drought === undefined ? {} : { drought: given.drought }),
      ...(given.greening_up === undefined ? {} : { greeningUp: given.greening_up }),
      ...(given.dormant === undefined ? {} : { dormant: given.dormant }),
      ...(given.new_grass === undefined ? {} : { isNew: given.new_grass }),
      ...(given.soaked === undefined ? {} : { soaked: given.soaked }),
      ...(given.mown === undefined ? {} : { mownDaysAgo: given.mown }),
      ...(given.mow_in === undefined ? {} : { mowInDays: given.mow_in }),
    },
  }
}

function readPercent(text: string, read: ReturnType<typeof reader>): string | undefined {
  const found = /^(\d{1,3}(?:[.,]\d+)?)\s*%?$/.exec(text.trim())
  if (found?.[1] !== undefined) return found[1].replace(',', '.')
  read.refuse('humidity', say('conditions.humidity', { text }))
  return undefined
}

/** One sign seen is said; "none" says that every one was looked for. */
function signsOf(sign: NonNullable<ConditionsOptions['sign']>): NonNullable<Readings['inversion']> {
  if (sign !== 'none') return { [sign]: true }
  return Object.fromEntries(inversionSigns.map((one) => [one, false]))
}

const sayReason = (one: Reason): Text => say(one.id, one.with)

function sayLabel(one: Reason): Text[] {
  return 'line' in one && typeof one.line === 'string' ? [say('label.source-line', { line: one.line })] : []
}

function airFacts(readings: Readings): Fact[] {
  const air = readAir(readings)
  if (air === null || 'id' in air) return []
  const { wetBulb, deltaT, vaporDeficit } = dryingOf(air)
  const fact = (name: string, { value, unit }: { value: string; unit: string }) => ({
    name,
    value: factValue(value),
    unit,
  })
  return [fact('wet_bulb', wetBulb), fact('delta_t', deltaT), fact('vpd', vaporDeficit)]
}

function crewHeat(given: ConditionsOptions, { temperature, humidityPercent }: Readings) {
  if (temperature === undefined || humidityPercent === undefined) return { reasons: [], facts: [] }
  if (readAir({ temperature, humidityPercent }) === null) return { reasons: [], facts: [] }
  const heat = judgeCrewHeat(temperature, humidityPercent, given.clothing ?? 'work clothes', guidance())
  const { value, unit } = heat.heatIndex
  return { reasons: heat.reasons, facts: [{ name: 'heat_index', value: factValue(value), unit }] }
}

function signChoices() {
  return [...inversionSigns, 'none' as const].map((sign) => ({
    label: say(`conditions.sign-${sign}`),
    to: { step: 'set', value: { sign } },
  }))
}
