import { type Attachment, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { dayIn } from '#src/desk/clock.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { curveOf, type Judged } from '#src/efficacy/judge.ts'
import { inPercent } from '#src/efficacy/shown.ts'
import { daysBetween } from '#src/label/day.ts'
import {
  HISTORY_PAPER,
  MOST_PHOTOS as MOST_PAPER_PHOTOS,
  type PlotHistory,
} from '#src/papers/history-order.ts'
import { MOST_PHOTOS, PHOTO_SHEET } from '#src/pictures/kinds/photo-sheet.ts'
import type { Look, LookStatus } from '#src/recheck/plan.ts'
import { sayInjury, sayNote, sayPurpose } from '#src/recheck/words.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { recordName } from '#src/record/number.ts'
import { chartOf } from './chart.ts'
import { judgeAll, lastWords } from './judged.ts'
import { RATING_PHOTOS } from './keep-rating.ts'
import { sayWhySkipped } from './keep-visits.ts'
import { type OpenVisits, openVisit } from './open-visit.ts'
import { sayPlace } from './place.ts'
import { PLOT_PHOTOS, sayPlot } from './say-plot.ts'

/** Everything of one application on one card: what was done, every look, the chart, the photos in the order of days. */
export async function showHistory(visit: number, tools: Tools): Promise<Answer> {
  const found = await openVisit(visit, tools)
  return found.ok ? historyCard(found.value, tools) : found.ask
}

export async function historyCard(open: OpenVisits, tools: Tools): Promise<Answer> {
  const { visits, application, plots } = open
  const { store } = tools
  const ratings = lastWords(await store.ratings.list(visits.id))
  const judged = judgeAll(ratings, plots, application.treatedOn)
  const newest = judged.at(-1)
  const chart = await chartOf(open, judged, tools)
  const names = new Map((await store.people.list()).map(({ id, name }) => [String(id), name]))
  const number = recordName(application.row.number)
  const curve = curveOf(judged)
  const photos = await photosOf(open, tools)
  return {
    reply: reply('answer', say('visits.history-of', { place: sayPlace(application), record: number }), {
      lines: [
        appliedLine(open),
        ...plots.map(sayPlot),
        ...visitLines(visits.plan.looks, judged, { names, treatedOn: application.treatedOn }),
        ...(newest?.notes ?? []).map(sayNote),
        ...(curve.ok && judged.length > 1
          ? [
              say('visits.curve', {
                percent: inPercent(curve.value.relativePercent),
                days: Number(curve.value.days),
              }),
            ]
          : []),
      ],
      facts: [
        { name: 'record', value: number },
        { name: 'ratings', value: judged.length },
        ...(newest?.control == null
          ? []
          : [
              {
                name: 'percent_control',
                value: Number(Number(newest.control.mean).toPrecision(12)),
                unit: '%',
              },
            ]),
      ],
      choices: [
        { label: say('visits.paper'), to: { step: 'paper', value: { visit: visits.id } }, repeat: true },
      ],
      files: [...(chart === null ? [] : [chart]), ...sheetOf(open, photos)],
      safety: { about: ['recheck', 'records'] },
    }),
  }
}

/** The same on one page for the client. */
export async function historyPaper(visit: number, tools: Tools): Promise<Answer> {
  const found = await openVisit(visit, tools)
  if (!found.ok) return found.ask
  const { reply: card } = await historyCard(found.value, tools)
  const chart = card.files.find(({ from }) => 'picture' in from && from.picture === 'control-chart')
  const photos = spread(await photosOf(found.value, tools), MOST_PAPER_PHOTOS)
  const data: PlotHistory = {
    title: card.title,
    crew: tools.crew.name,
    isDemo: tools.crew.demo,
    lines: card.lines,
    chart: chart !== undefined && 'picture' in chart.from ? chart.from.data : null,
    photos: photos.map(({ blob, caption }) => ({ blob, caption })),
  }
  return {
    reply: reply('answer', card.title, {
      facts: card.facts,
      files: [{ name: 'history.pdf', alt: card.title, from: { paper: HISTORY_PAPER, data: data as never } }],
      audience: 'person',
      safety: { about: ['records'] },
    }),
  }
}

function appliedLine({ application }: OpenVisits): Text {
  const { treatedOn, products, weeds, record } = application
  const ground = recorded(record.treatedArea)
  return say('visits.applied', {
    day: { day: treatedOn },
    products: { all: products.map(({ used }) => used.name) },
    weeds: { all: weeds.map(({ words }) => words) },
    ground: ground === undefined ? say('visits.ground-unknown') : { value: ground.value, unit: ground.unit },
  })
}

interface Known {
  readonly names: ReadonlyMap<string, string>
  readonly treatedOn: string
}

/** Every look, and between them what was seen on a day on which none was due, in the order of days. */
function visitLines(looks: readonly Look[], judged: readonly Judged[], known: Known): Text[] {
  const answered = new Set(looks.flatMap(({ status }) => (status.kind === 'looked' ? [status.on] : [])))
  const extras = judged.filter(({ on }) => !answered.has(on))
  return [
    ...looks.map((look) => ({ on: shownOn(look), lines: lookLines(look, judged, known) })),
    ...extras.map((one) => ({ on: one.on, lines: [ratedLine(one, known)] })),
  ]
    .sort((a, b) => (a.on === b.on ? 0 : a.on < b.on ? -1 : 1))
    .flatMap(({ lines }) => lines)
}

const shownOn = ({ status, visitOn }: Look) => (status.kind === 'planned' ? visitOn : status.on)

function lookLines(look: Look, judged: readonly Judged[], known: Known): Text[] {
  const { status } = look
  if (status.kind !== 'looked') return [say(`visits.look-${status.kind}`, lookFigures(look, status, known))]
  const seen = judged.filter(({ on }) => on === status.on)
  const figures = lookFigures(look, status, known)
  if (seen.length === 0) return [say('visits.look-looked', figures)]
  return seen.map((one) => ratedLine(one, known))
}

function ratedLine({ on, day, control, injury, by }: Judged, { names }: Known): Text {
  return say(control === null ? 'visits.look-unjudged' : 'visits.look-rated', {
    day: { day: on },
    after: day,
    person: names.get(by) ?? '',
    injury: sayInjury(injury),
    ...(control === null ? {} : { percent: inPercent(control.mean) }),
  })
}

function lookFigures(look: Look, status: LookStatus, { names, treatedOn }: Known) {
  const on = shownOn(look)
  return {
    what: sayPurpose(look.purpose),
    day: { day: on },
    after: daysBetween(treatedOn, on),
    ...(status.kind === 'planned' ? {} : { person: names.get(status.by) ?? '' }),
    ...(status.kind === 'skipped' ? { reason: sayWhySkipped(status.reason) } : {}),
  }
}

/** A photo and the day that stands above it. */
interface DatedPhoto {
  readonly blob: string
  readonly type: string
  readonly caption: Text
}

/** Photos of the plots when they were marked, then of each visit. */
async function photosOf(
  { visits, application, plots }: OpenVisits,
  { store, crew }: Tools,
): Promise<DatedPhoto[]> {
  const photos: DatedPhoto[] = []
  for (const { id, flag, createdAtMs } of plots) {
    const caption = say('visits.photo-plot', { flag, day: { day: dayIn(crew.zone, createdAtMs) } })
    for (const { blob, type } of await store.files.list(PLOT_PHOTOS, id)) photos.push({ blob, type, caption })
  }
  for (const { id, rating } of await store.ratings.list(visits.id)) {
    const days = daysBetween(application.treatedOn, rating.on)
    const caption = say('visits.photo-day', { days, day: { day: rating.on } })
    for (const { blob, type } of await store.files.list(RATING_PHOTOS, id))
      photos.push({ blob, type, caption })
  }
  return photos
}

/** What stands side by side in one picture; anything else is sent as it was given. */
const SIDE_BY_SIDE = new Set(['image/jpeg', 'image/png', 'image/webp', 'image/gif'])
const MOST_OTHERS = 4

function sheetOf({ application }: OpenVisits, photos: readonly DatedPhoto[]): Attachment[] {
  const shown = spread(
    photos.filter(({ type }) => SIDE_BY_SIDE.has(type)),
    MOST_PHOTOS,
  ).map(({ blob, caption }) => ({ blob, caption }))
  const title = say('visits.photos', {
    place: sayPlace(application),
    record: recordName(application.row.number),
  })
  const sheet: Attachment[] =
    shown.length === 0
      ? []
      : [
          {
            name: 'photos.jpg',
            alt: title,
            from: { picture: PHOTO_SHEET, data: { title, photos: shown } as never },
          },
        ]
  const others = photos.filter(({ type }) => !SIDE_BY_SIDE.has(type)).slice(-MOST_OTHERS)
  return [
    ...sheet,
    ...others.map(({ blob, type, caption }, at) => ({
      name: `photo-${at + 1}.${type.split('/').at(-1)}`,
      alt: caption,
      from: { blob },
    })),
  ]
}

/** The first, the last, and as many between them as there is room for, evenly. */
function spread<T>(all: readonly T[], most: number): readonly T[] {
  if (all.length <= most) return all
  const step = (all.length - 1) / (most - 1)
  return Array.from({ length: most }, (_, at) => all[Math.round(at * step)] as T)
}
