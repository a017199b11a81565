import { askFor } from '#src/conversation/ask-for.ts'
import { type Attachment, reply } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { asTyped, say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'
import { big, decimalText } from '#src/quantity/big.ts'
import { parseOutput } from '#src/quantity/parse-rate.ts'
import { outputIn } from '#src/quantity/rate.ts'
import { saySetup } from '#src/sprayer/say-setup.ts'
import type { Person } from '#src/store/people.ts'
import { type Calibration, type Sprayer, type SprayerDetails, setupOf } from '#src/store/sprayers.ts'
import type { Found, Keepable } from './found.ts'
import type { CalibrateOptions } from './options.ts'

/** More digits than any measurement has. */
const DIGITS = 8

/**
 * Keeps a figure for a sprayer, its tip and pressure (or a spreader's setting) and a person. `/mix` uses a broadcast
 * output at once; spots and spreaders are kept apart from it.
 */
export async function keepFound(given: CalibrateOptions, found: Found, tools: Tools): Promise<Answer> {
  const { store } = tools
  const { keep } = found
  if (keep === null) throw new RangeError('Cannot keep a result that is no output')
  const all = await store.sprayers.list()
  if (given.sprayer === undefined)
    return askFor(
      given,
      say('outputs.which-sprayer'),
      all.map(({ name }) => ({ label: asTyped(name), set: { sprayer: name } })),
      { audience: 'person', safety: { about: ['records'] } },
    )
  const sprayer = pick(given, 'sprayer', given.sprayer, all)
  if (!sprayer.ok) return sprayer.ask
  const person = given.for === undefined ? null : pick(given, 'for', given.for, await store.people.list())
  if (person !== null && !person.ok) return person.ask
  const who = person?.value ?? tools.person
  const { now, changed } = await refit(sprayer.value, given, tools)
  const value = decimalText(big(keep.value).toSignificantDigits(DIGITS))
  const setup = setupFor(keep, now.details, given)
  await store.sprayers.keepCalibration(
    {
      sprayerId: now.id,
      personId: who.id,
      setup,
      output: { value, unit: keep.unit },
      measuredOn: tools.today,
      details: { ...figuresOf(given), kind: keep.kind },
    },
    tools.nowMs,
  )
  const before = (await store.sprayers.listCalibrations(now.id, who.id)).filter((one) => one.setup === setup)
  return {
    reply: reply(
      'answer',
      say('outputs.kept', { output: { value, unit: keep.unit }, sprayer: now.name, person: who.name }),
      {
        lines: [
          say('outputs.measured-on', { day: { day: tools.today } }),
          ...setupLines(keep, now.details, given),
          ...(changed ? [say('sprayer.voided')] : []),
          ...lastLines(before),
          say(`outputs.kept-${keep.kind}`),
        ],
        facts: [
          { name: keep.kind === 'broadcast' ? 'output' : 'kept', value: factValue(value), unit: keep.unit },
        ],
        files: trendPicture(before, now, who),
        safety: { about: ['records'] },
      },
    ),
  }
}

const isSame = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase()

/** Another tip or pressure than the sprayer had: that is what is on it now, and older outputs are void. */
async function refit(sprayer: Sprayer, { tip, pressure }: CalibrateOptions, { store }: Tools) {
  const { details } = sprayer
  const fitted: SprayerDetails = {
    ...details,
    tip: tip === undefined || isSame(tip, details.tip) ? details.tip : tip,
    pressure: pressure === undefined || isSame(pressure, details.pressure) ? details.pressure : pressure,
  }
  const changed = setupOf(fitted) !== setupOf(details)
  if (changed) await store.sprayers.update(sprayer.id, fitted)
  return { now: { ...sprayer, details: fitted }, changed }
}

function setupFor({ kind }: Keepable, details: SprayerDetails, { setting }: CalibrateOptions): string {
  if (kind === 'broadcast') return setupOf(details)
  return kind === 'spots' ? `spots|${setupOf(details)}` : `spreader|${setting ?? ''}`
}

/** What was typed of the measurement itself, without who and what it was for. */
function figuresOf({ sprayer: _, for: __, ...typed }: CalibrateOptions): Record<string, unknown> {
  return typed
}

function setupLines({ kind }: Keepable, details: SprayerDetails, { setting }: CalibrateOptions): Text[] {
  if (kind === 'spreader') return setting === undefined ? [] : [say('outputs.setting', { setting })]
  return saySetup(details)
}

/** How it compares with the time before. */
function lastLines(all: readonly Calibration[]): Text[] {
  const last = all.at(-2)
  return last === undefined
    ? []
    : [say('outputs.last', { output: last.output, day: { day: last.measuredOn } })]
}

/** As many as one picture shows. */
const MOST_POINTS = 60

/** The outputs of one person with this setup through time, all in the unit of the newest. */
function trendPicture(all: readonly Calibration[], sprayer: Sprayer, person: Person): Attachment[] {
  const newest = all.at(-1)
  if (newest === undefined) return []
  const points = all.slice(-MOST_POINTS).flatMap((one) => {
    const value = valueIn(one, newest)
    return value === null ? [] : [{ day: one.measuredOn, value }]
  })
  return [
    {
      name: 'outputs.png',
      alt: say('outputs.trend', { sprayer: sprayer.name, person: person.name }),
      from: {
        picture: 'trend',
        data: { title: `${sprayer.name}: ${person.name}`, unit: newest.output.unit, series: [{ points }] },
      },
    },
  ]
}

const TREND_DIGITS = 5

function valueIn({ output }: Calibration, newest: Calibration): string | null {
  if (output.unit === newest.output.unit)
    return decimalText(big(output.value).toSignificantDigits(TREND_DIGITS))
  const [own, like] = [output, newest.output].map(({ value, unit }) => parseOutput(`${value} ${unit}`))
  if (own?.ok !== true || like?.ok !== true) return null
  return decimalText(outputIn(own.value, like.value).toSignificantDigits(TREND_DIGITS))
}
