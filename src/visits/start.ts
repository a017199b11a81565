import { askFor } from '#src/conversation/ask-for.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { findPlace, pickSite } from '#src/mixing/resolve.ts'
import { recordName } from '#src/record/number.ts'
import type { Area, Site } from '#src/store/sites.ts'
import type { KeptVisits } from '#src/store/visits.ts'
import { findTyped } from './find-record.ts'
import { historyCard } from './history.ts'
import { showLook } from './look-card.ts'
import { LOOKS } from './looks.ts'
import { openVisit } from './open-visit.ts'
import type { HistoryOptions, RateOptions } from './options.ts'

/** The look of one application, by its record. */
export async function startRating(given: RateOptions, tools: Tools): Promise<Answer> {
  const visits = await visitsOf(given.record, tools)
  return visits.ok ? { ...(await showLook(visits.value.id, tools)), keptAs: LOOKS } : visits.ask
}

type Found = { readonly ok: true; readonly value: KeptVisits } | { readonly ok: false; readonly ask: Answer }

/** Without plots there is nothing to rate: one press marks them. */
async function visitsOf(record: string, tools: Tools): Promise<Found> {
  const found = await findTyped(record, tools)
  if (!found.ok) return found
  const { number } = found.value.row
  const visits = await tools.store.visits.ofRecord(number)
  if (visits !== undefined) return { ok: true, value: visits }
  const ask = reply('question', say('visits.not-marked', { record: recordName(number) }), {
    choices: [
      {
        label: say('visits.mark-plots'),
        to: { command: 'recheck plots', options: { record: recordName(number) } },
        look: 'main',
      },
    ],
    audience: 'person',
    safety: { about: ['recheck'] },
  })
  return { ok: false, ask: { reply: ask } }
}

/** The history of one application, or of a site: its newest one, and a press to each of the others. */
export async function startHistory(given: HistoryOptions, tools: Tools): Promise<Answer> {
  if (given.record !== undefined) {
    const visits = await visitsOf(given.record, tools)
    if (!visits.ok) return visits.ask
    const open = await openVisit(visits.value.id, tools)
    return open.ok ? { ...(await historyCard(open.value, tools)), keptAs: LOOKS } : open.ask
  }
  if (given.site === undefined && given.area === undefined)
    return askFor(given, say('visits.history-which'), [], { audience: 'person' })
  const where = await areasOf(given, tools)
  if (!where.ok) return where.ask
  const { site, areas } = where.value
  const all = (await Promise.all(areas.map(({ id }) => tools.store.visits.ofArea(id)))).flat()
  const marked = all.filter(({ recordNumber }) => recordNumber !== null).sort((a, b) => b.id - a.id)
  const [newest, ...others] = marked
  if (newest === undefined)
    return {
      reply: reply('answer', say('visits.history-none', { site: site.name }), {
        audience: 'person',
        safety: { about: ['recheck'] },
      }),
    }
  const open = await openVisit(newest.id, tools)
  if (!open.ok) return open.ask
  const card = await historyCard(open.value, tools)
  return {
    ...card,
    reply: {
      ...card.reply,
      choices: [
        ...card.reply.choices,
        ...others.slice(0, MOST_OTHERS).map(({ id, recordNumber, areaId, plan }) => ({
          label: say(areas.length > 1 ? 'visits.history-other-area' : 'visits.history-other', {
            record: recordName(recordNumber ?? 0),
            day: { day: plan.treatedOn },
            ...(areas.length > 1 ? { area: areas.find((area) => area.id === areaId)?.name ?? '' } : {}),
          }),
          to: { step: 'history', value: { visit: id } },
          repeat: true,
        })),
      ],
    },
    keptAs: LOOKS,
  }
}

const MOST_OTHERS = 10

/** The area that was named, or all of the site: a history is of whatever was treated there. */
async function areasOf(given: HistoryOptions, tools: Tools): Promise<AreasFound> {
  if (given.site !== undefined && given.area === undefined) {
    const site = await pickSite(given, given.site, tools)
    if (!site.ok) return site
    return { ok: true, value: { site: site.value, areas: await tools.store.sites.listAreas(site.value.id) } }
  }
  const place = await findPlace(given, tools)
  if (!place.ok) return place
  const { site, area } = place.value
  if (site === null) throw new RangeError('An area was found without its site')
  return { ok: true, value: { site, areas: area === null ? [] : [area] } }
}

type AreasFound =
  | { readonly ok: true; readonly value: { readonly site: Site; readonly areas: readonly Area[] } }
  | { readonly ok: false; readonly ask: Answer }
