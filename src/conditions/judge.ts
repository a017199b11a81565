import { reader } from '#src/conversation/reader.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { saySource } from '#src/label/words.ts'
import { findPlace, pick } from '#src/mixing/resolve.ts'
import { readData } from '#src/project.ts'
import type { BookEntry } from '#src/store/labels.ts'
import { type Guidance, loadGuidance } from '#src/weather/guidance.ts'
import { mayIToday } from '#src/weather/may-i-today.ts'
import type { LabelDay, Readings } from '#src/weather/readings.ts'
import { type Reason, sortReasons, strictestOf } from '#src/weather/reason.ts'
import { ceilingSpread } from '#src/weather/wind.ts'
import { airOf } from './air.ts'
import { judgeAtHand } from './at-hand.ts'
import { labelDayOf, NO_LABEL } from './label-day.ts'
import type { ConditionsState } from './options.ts'
import { mindOf, newTurf, sleepsOn } from './place.ts'
import { choicesFor, formFor } from './questions.ts'
import { readingsOf } from './readings.ts'

let kept: Guidance | null = null
const guidance = () => {
  kept ??= loadGuidance(readData)
  return kept
}

/** May it go out today? The label's own limits first, then what is published where it is silent. */
export async function judgeDay(given: ConditionsState, tools: Tools): Promise<Answer> {
  const found =
    given.product === undefined
      ? null
      : pick(given, 'product', given.product, await tools.store.labels.list())
  if (found !== null && !found.ok) return { ...found.ask, state: given }
  const place = await findPlace(given, tools)
  if (!place.ok) return { ...place.ask, state: given }
  const { site, area } = place.value
  const entry = found?.value
  if (entry !== undefined && entry.live === null) return notLive(given, entry)
  const body = entry?.live?.body
  const read = reader(tools.locale)
  const dormant = sleepsOn(area, given.dormant)
  const readings = readingsOf({ ...given, ...(dormant === undefined ? {} : { dormant }) }, read, tools, site)
  if (read.problems.length > 0) return refuse(given, read.problems)
  const label = body === undefined ? NO_LABEL : labelDayOf(body, given['@roots'])
  const day = mayIToday(label, readings, guidance())
  const air = airOf(readings, given.clothing, guidance(), tools)
  const reasons = sortReasons([
    ...judgeAtHand(given),
    ...newTurf(body, area, tools),
    ...day.reasons,
    ...air.reasons,
  ])
  const outcome = strictestOf(reasons)
  const stops = outcome === 'answer' ? [] : reasons.filter((one) => one.outcome === outcome)
  const asks = outcome === 'question'
  const [first] = stops
  return {
    reply: reply(outcome, first === undefined ? fine(readings) : sayReason(first), {
      lines: [
        ...(first === undefined ? [] : sayLabel(first)),
        ...reasons.filter((one) => one !== first).flatMap((one) => [sayReason(one), ...sayLabel(one)]),
        ...air.lines,
        ...spreadLines(label, readings, reasons),
        ...fromLines(given, readings),
        ...mindOf(site),
        ...(body === undefined ? [say('conditions.no-label')] : []),
      ],
      facts: [...air.facts],
      choices: asks ? choicesFor(stops, readings) : [],
      form: asks ? formFor(stops, given) : null,
      safety: { about: ['wind', 'heat', 'rain'] },
    }),
    state: given,
  }
}

function notLive(given: ConditionsState, { name }: BookEntry): Answer {
  return {
    reply: reply('hold', say('mixing.not-live', { product: name }), {
      audience: 'person',
      safety: { about: ['records'] },
    }),
    state: given,
  }
}

function refuse(given: ConditionsState, problems: readonly Text[]): Answer {
  return {
    reply: reply('refusal', say('conditions.cannot'), {
      lines: [...problems],
      audience: 'person',
      safety: { about: ['wind'] },
    }),
    state: given,
  }
}

/** The readings first: somebody else may read this an hour later. */
function fine({ wind, temperature }: Readings): Text {
  if (wind === undefined || temperature === undefined) return say('conditions.fine')
  return say('conditions.fine-at', { wind, temperature })
}

/** Reasons that tell the published spread themselves. */
const TELLS_SPREAD = new Set([
  'weather.wind-brisk',
  'weather.wind-above-guidance',
  'weather.wind-above-guidance-unread',
  'weather.wind-above-guidance-allowed',
])

/** Where the label prints no limit of wind, how far apart the published ones are. */
function spreadLines(label: LabelDay, readings: Readings, reasons: readonly Reason[]): Text[] {
  const told = reasons.some(({ id }) => TELLS_SPREAD.has(id))
  if (told || label.wind?.most !== undefined || readings.wind === undefined) return []
  const { least, most, count } = ceilingSpread(guidance())
  const id = label.isUnread ? 'conditions.wind-spread-unread' : 'conditions.wind-spread'
  return [say(id, { least, most, sources: count })]
}

const OPPOSITE = { N: 'S', NE: 'SW', E: 'W', SE: 'NW', S: 'N', SW: 'NE', W: 'E', NW: 'SE' } as const

/** Wind is named by where it comes from; drops go the other way. */
function fromLines({ wind_from: from, toward }: ConditionsState, { wind }: Readings): Text[] {
  if (from === undefined || wind === undefined) return []
  const to = say(`conditions.compass-${OPPOSITE[from]}`)
  const told = { from: say(`conditions.compass-${from}`), to }
  return [say(toward === undefined ? 'conditions.wind-from-ask' : 'conditions.wind-from', told)]
}

const sayReason = (one: Reason): Text => say(one.id, one.with)

function sayLabel(one: Reason): Text[] {
  const source = saySource(one)
  return source === null ? [] : [source]
}
