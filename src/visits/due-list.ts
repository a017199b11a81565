import { type Choice, type Reply, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { addDays } from '#src/label/day.ts'
import { pick } from '#src/mixing/resolve.ts'
import { type DueLook, listDue } from '#src/recheck/due.ts'
import { sayPurpose, sayState } from '#src/recheck/words.ts'
import { recordName } from '#src/record/number.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { KeptVisits } from '#src/store/visits.ts'
import type { DueOptions } from './options.ts'
import { ownedPlan } from './owned-plans.ts'
import { placeOf, sayPlace } from './place.ts'

/** How far ahead coming looks are shown. */
const DAYS_AHEAD = 21
const MOST_LISTED = 20

/** What is due: for whoever asks, at one site, or overdue for everybody. */
export async function listLooks(given: DueOptions, tools: Tools): Promise<Answer> {
  const { store, today, person } = tools
  const sites = given.site === undefined ? [] : await store.sites.list()
  const site = given.site === undefined ? null : pick(given, 'site', given.site, sites)
  if (site !== null && !site.ok) return site.ask
  const visits = await store.visits.listOpen(addDays(today, DAYS_AHEAD))
  const looks = listDue(visits.map(ownedPlan), today, {
    daysAhead: given.overdue ? 0 : DAYS_AHEAD,
    ...(given.overdue ? { states: ['overdue'] } : {}),
    ...(site === null ? {} : { site: String(site.value.id) }),
    ...(site === null && !given.overdue ? { person: String(person.id) } : {}),
  })
  return { reply: await dueReply(titleOf(looks), looks, visits, tools) }
}

function titleOf(looks: readonly DueLook[]): Text {
  const open = looks.filter(({ state }) => state !== 'coming').length
  return open > 0
    ? say('visits.due', { count: open })
    : say(looks.length > 0 ? 'visits.none-due' : 'visits.nothing')
}

/** The looks as lines and as presses, the longest waiting first. */
export async function dueReply(
  title: Text,
  looks: readonly DueLook[],
  visits: readonly KeptVisits[],
  tools: Pick<Tools, 'store'>,
): Promise<Reply> {
  const shown = await Promise.all(
    looks.slice(0, MOST_LISTED).map((look) => lineOf(look, visits, tools.store)),
  )
  const [first] = looks
  const count = (state: DueLook['state']) => looks.filter((one) => one.state === state).length
  return reply('answer', title, {
    lines: [
      ...shown.map(({ line }) => line),
      ...(looks.length > MOST_LISTED ? [say('visits.more', { count: looks.length - MOST_LISTED })] : []),
      ...(looks.length === 0 ? [say('visits.nothing-how')] : []),
    ],
    facts: [
      ...(first === undefined
        ? []
        : [
            {
              name: 'due',
              value: first.look.visitOn,
              text: say('visits.day', { day: { day: first.look.visitOn } }),
            },
          ]),
      { name: 'due_count', value: count('due') + count('overdue') },
      { name: 'overdue_count', value: count('overdue') },
    ],
    choices: shown.map(({ choice }) => choice),
    audience: 'person',
    safety: { about: ['recheck'] },
  })
}

async function lineOf(
  { plan, look, state, treatedOn }: DueLook,
  visits: readonly KeptVisits[],
  store: CrewStore,
): Promise<{ readonly line: Text; readonly choice: Choice }> {
  const kept = visits.find(({ id }) => String(id) === plan)
  const place = sayPlace(
    await placeOf({ siteId: kept?.siteId ?? null, areaId: kept?.areaId ?? null }, { store }),
  )
  const about = {
    place,
    what: sayPurpose(look.purpose),
    state: sayState(state),
    day: { day: look.visitOn },
    until: { day: look.to },
    treated: { day: treatedOn },
    record: recordName(kept?.recordNumber ?? 0),
  }
  const walk = kept?.walkId == null ? undefined : await store.walks.get(kept.walkId)
  if (walk !== undefined)
    return {
      line: say('visits.line-held', about),
      choice: {
        label: say('visits.go-to-plant', { place }),
        to: { command: 'key', options: { resume: String(walk.number) } },
        repeat: true,
      },
    }
  return {
    line: say('visits.line', about),
    choice: {
      label: say('visits.go-to', { place, record: about.record }),
      to: { step: 'open', value: { visit: Number(plan) } },
      repeat: true,
    },
  }
}
