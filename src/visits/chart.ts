import type { Attachment } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { Judged } from '#src/efficacy/judge.ts'
import { recordName } from '#src/record/number.ts'
import { lastWords } from './judged.ts'
import type { OpenVisits } from './open-visit.ts'
import { sayPlace } from './place.ts'

/** More lines than these are not told apart on a phone. */
const MOST_PLOTS = 5
const MOST_APPLICATIONS = 6

/** Percent control of each plot over the days, with the untreated spot, applications and rain; null before a rating. */
export async function chartOf(
  { visits, application, plots }: OpenVisits,
  judged: readonly Judged[],
  { store, today }: Tools,
): Promise<Attachment | null> {
  const flags = plots.filter(({ kind }) => kind === 'treated').map(({ flag }) => flag)
  const lines = flags.slice(0, MOST_PLOTS).flatMap((flag) => {
    const points = judged.flatMap(({ on, plots: seen }) =>
      seen.filter(({ plot }) => plot === flag).map(({ percent }) => ({ day: on, value: percent })),
    )
    return points.length === 0 ? [] : [{ name: say('visits.flag', { flag }), points }]
  })
  if (lines.length === 0) return null
  const ratings = lastWords(await store.ratings.list(visits.id)).map(({ rating }) => rating)
  const untreated = ratings.flatMap(({ on, untreated: spot }) =>
    spot === null ? [] : [{ day: on, value: String(spot.brownPercent) }],
  )
  const treated =
    visits.areaId === null ? [] : await store.treatments.list(visits.areaId, application.treatedOn)
  const days = [...new Set([application.treatedOn, ...treated.map(({ treatedOn }) => treatedOn)])]
  const place = sayPlace(application)
  const title = say('visits.chart', { place, record: recordName(application.row.number) })
  return {
    name: 'control.png',
    alt: title,
    from: {
      picture: 'control-chart',
      data: {
        title,
        measure: 'control',
        plots: lines,
        ...(untreated.length === 0 ? {} : { untreated }),
        applications: days.filter((day) => day <= today).slice(0, MOST_APPLICATIONS),
        rain: ratings.filter(({ rain }) => rain === 'yes').map(({ on }) => on),
      } as never,
    },
  }
}
