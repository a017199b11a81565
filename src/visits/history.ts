import { type Attachment, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { curveOf, type Judged } from '#src/efficacy/judge.ts'
import { inPercent } from '#src/efficacy/shown.ts'
import { daysBetween } from '#src/label/day.ts'
import {
  HISTORY_PAPER,
  MOST_PHOTOS as MOST_PAPER_PHOTOS,
  type PlotHistory,
} from '#src/papers/history-order.ts'
import type { Look, LookStatus } from '#src/recheck/plan.ts'
import { sayInjury, sayNote, sayPurpose } from '#src/recheck/words.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { recordName } from '#src/record/number.ts'
import { chartOf } from './chart.ts'
import { judgeAll, lastWords } from './judged.ts'
import { RATING_PHOTOS } from './keep-rating.ts'
import { type OpenVisits, openVisit } from './open-visit.ts'
import { sayPlace } from './place.ts'
import { PLOT_PHOTOS, sayPlot } from './say-plot.ts'

/** A messenger shows so many pictures beside the chart, side by side. */
const MOST_PHOTOS = 8

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
  return {
    reply: reply('answer', say('visits.history-of', { place: sayPlace(application), record: number }), {
      lines: [
        appliedLine(open),
        ...plots.map(sayPlot),
        ...visits.plan.looks.flatMap((look) =>
          lookLines(look, judged, { names, treatedOn: application.treatedOn }),
        ),
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
      files: [...(chart === null ? [] : [chart]), ...(await photosOf(open, tools))],
      safety: { about: ['recheck', 'records'] },
    }),
  }
}

/** The same on one page for the client. */
export async function historyPaper(visit: number, tools: Tools): Promise<Answer> {
  const found = await openVisit(visit, tools)
  if (!found.ok) return found.ask
  const { reply: card } = await historyCard(found.value, tools)
  const chart = card.files.find(({ from }) => 'picture' in from)
  const photos = card.files.flatMap(({ from, alt }) =>
    'blob' in from ? [{ blob: from.blob, caption: alt }] : [],
  )
  const data: PlotHistory = {
    title: card.title,
    crew: tools.crew.name,
    isDemo: tools.crew.demo,
    lines: card.lines,
    chart: chart !== undefined && 'picture' in chart.from ? chart.from.data : null,
    photos: photos.slice(-MOST_PAPER_PHOTOS),
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

function lookLines(look: Look, judged: readonly Judged[], known: Known): Text[] {
  const { status } = look
  if (status.kind !== 'looked') return [say(`visits.look-${status.kind}`, lookFigures(look, status, known))]
  const seen = judged.filter(({ on }) => on === status.on)
  const figures = lookFigures(look, status, known)
  if (seen.length === 0) return [say('visits.look-looked', figures)]
  return seen.map(({ control, injury, by }) =>
    say(control === null ? 'visits.look-unjudged' : 'visits.look-rated', {
      ...figures,
      person: known.names.get(by) ?? '',
      injury: sayInjury(injury),
      ...(control === null ? {} : { percent: inPercent(control.mean) }),
    }),
  )
}

function lookFigures(look: Look, status: LookStatus, { names, treatedOn }: Known) {
  const on = status.kind === 'planned' ? look.visitOn : status.on
  return {
    what: sayPurpose(look.purpose),
    day: { day: on },
    after: daysBetween(treatedOn, on),
    ...(status.kind === 'planned' ? {} : { person: names.get(status.by) ?? '' }),
    ...(status.kind === 'skipped' ? { reason: status.reason } : {}),
  }
}

/** Photos of the plots when they were marked, then of each visit: the messenger shows them side by side. */
async function photosOf({ visits, application, plots }: OpenVisits, { store }: Tools): Promise<Attachment[]> {
  const photos: Attachment[] = []
  for (const plot of plots)
    for (const photo of await store.files.list(PLOT_PHOTOS, plot.id))
      photos.push(
        attachment(photo, say('visits.photo-plot', { flag: plot.flag }), `plot-${photos.length + 1}`),
      )
  for (const { id, rating } of await store.ratings.list(visits.id)) {
    const days = daysBetween(application.treatedOn, rating.on)
    for (const photo of await store.files.list(RATING_PHOTOS, id))
      photos.push(attachment(photo, say('visits.photo-day', { days }), `day-${days}-${photos.length + 1}`))
  }
  return photos.slice(0, MOST_PHOTOS)
}

function attachment(
  photo: { readonly blob: string; readonly type: string },
  alt: Text,
  name: string,
): Attachment {
  return { name: `${name}.${photo.type.split('/').at(-1)}`, alt, from: { blob: photo.blob } }
}
