import { field, refill, textOf } from '#src/conversation/fields.ts'
import type { Choice, Reply } from '#src/conversation/reply.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { sumTyped } from '#src/degrees/count.ts'
import { LONGEST_PASTE } from '#src/degrees/options.ts'
import type { Answer as Answered, Event, Tools } from '#src/desk/command.ts'
import { planHeldLook } from '#src/visits/held.ts'
import { daysUntil } from '#src/weather/degree-days/days-until.ts'
import { keepWalk } from './keep.ts'
import { walkLine } from './lines.ts'
import { placeOf, placeWords } from './place.ts'
import type { Live } from './state.ts'

const DAY_MS = 86_400_000
/** Common practice, no source: a mown head is back within one to two weeks in season. */
const DAYS = [3, 7, 14]

/** When to look for a seed head again? */
export function askWhen(walk: Live): Answered {
  return {
    reply: reply('question', say('identify.wait-days'), {
      lines: [say('identify.wait-how')],
      choices: [
        ...DAYS.map(
          (days): Choice => ({
            label: say('identify.days', { days }),
            to: { step: 'wait-days', value: days },
          }),
        ),
        { label: say('identify.by-degrees'), to: { step: 'wait-degrees' } },
        { label: say('common.cancel'), to: { step: 'stop' } },
      ],
      audience: 'person',
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk },
  }
}

const MOST_PROBLEMS = 5

/** Longer than half a year ahead nobody can tell the warmth of a day. */
const MOST_DAYS = 180

/** Degree days that are still lacking, and how many a day brings at present: what the days are counted from. */
export function askDegrees(walk: Live, problem?: Text): Answered {
  return {
    reply: reply('question', say('identify.degrees-title'), {
      lines: [problem ?? say('identify.degrees-how')],
      form: {
        title: say('identify.degrees-title'),
        open: say('common.fill-in'),
        fields: [
          field('identify.form', 'lacking', { required: true, hint: true, maxLength: 8 }),
          field('identify.form', 'daily', { required: true, hint: true, maxLength: 8 }),
        ],
        to: { step: 'degrees-days' },
      },
      choices: [
        { label: say('identify.degrees-count'), to: { step: 'wait-count' } },
        { label: say('common.back'), to: { step: 'wait' } },
      ],
      audience: 'person',
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk },
  }
}

const METHODS = ['average', 'capped', 'sine'] as const

/** The same from the highs and lows of each day, counted here; what was typed comes back when it cannot be counted. */
export function askCount(walk: Live, event: Event, problems: readonly Text[] = []): Answered {
  const typed = event.kind === 'submit' ? event.fields : {}
  const [base, cap, temperatures] = [
    field('degrees.form', 'base', { required: true, hint: true, maxLength: 10 }),
    field('degrees.form', 'cap', { hint: true, maxLength: 10 }),
    field('degrees.form', 'temperatures', {
      kind: 'long-text',
      required: true,
      hint: true,
      maxLength: LONGEST_PASTE,
    }),
  ]
  const method = field('identify.form', 'method', {
    kind: 'choice',
    required: true,
    options: METHODS.map((value) => ({ value, label: say(`degrees.method.${value}`) })),
  })
  const wanted = field('identify.form', 'wanted', { required: true, hint: true, maxLength: 8 })
  return {
    reply: reply('question', say('identify.degrees-title'), {
      lines: problems.length > 0 ? problems.slice(0, MOST_PROBLEMS) : [say('degrees.methods-differ')],
      form: {
        title: say('identify.degrees-title'),
        open: say('common.fill-in'),
        fields: refill([wanted, method, base, cap, temperatures], typed),
        to: { step: 'counted-days' },
      },
      choices: [{ label: say('common.back'), to: { step: 'wait-degrees' } }],
      audience: 'person',
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk },
  }
}

/** Counts what has come so far, and plans the look for the day on which the rest will be there. */
export async function planByCount(walk: Live, event: Event, tools: Tools): Promise<Answered> {
  const fields = event.kind === 'submit' ? event.fields : {}
  const typed = (name: string) => textOf(fields, name) || undefined
  const wanted = Number(typed('wanted'))
  const counted = sumTyped(
    {
      temperatures: typed('temperatures'),
      method: METHODS.find((one) => one === typed('method')),
      base: typed('base'),
      cap: typed('cap'),
    },
    tools,
  )
  if (!counted.ok) return askCount(walk, event, counted.error)
  const ahead = daysUntil(wanted, counted.value, tools.today)
  if (!(wanted > 0) || ahead.days === null || ahead.days > MOST_DAYS)
    return askCount(walk, event, [say('identify.count-wrong', { most: MOST_DAYS })])
  return planLook(walk, Math.max(1, ahead.days), tools, [
    say('identify.degrees-so-far', {
      total: Math.round(Number(counted.value.total)),
      wanted: Math.round(wanted),
      last: { day: counted.value.lastDay },
      daily: Math.round(ahead.daily),
    }),
  ])
}

/** Plans the look for the day on which the degree days are there, if the weather stays as it is. */
export async function planByDegrees(walk: Live, event: Event, tools: Tools): Promise<Answered> {
  const fields = event.kind === 'submit' ? event.fields : {}
  const [lacking, daily] = ['lacking', 'daily'].map((name) => Number(textOf(fields, name)))
  const days = Math.ceil((lacking ?? 0) / (daily ?? 0))
  if (!(days >= 1 && days <= MOST_DAYS))
    return askDegrees(walk, say('identify.degrees-wrong', { most: MOST_DAYS }))
  return planLook(walk, days, tools)
}

/** Plans a look for whoever asked, on the first workday from then on, and leaves the plant alone until then. */
export async function planLook(
  walk: Live,
  days: number,
  tools: Tools,
  why: readonly Text[] = [],
): Promise<Answered> {
  const { crew, nowMs, canWrite } = tools
  const kept = await keepWalk(walk, 'hold', tools)
  const dueAtMs =
    kept.id === null || !canWrite
      ? nowMs + days * DAY_MS
      : await planHeldLook({ walkId: kept.id, ...kept.body }, days, tools)
  return {
    reply: reply(
      'hold',
      say('identify.wait-planned', { at: { atMs: dueAtMs, zone: crew.zone, style: 'date' } }),
      {
        lines: [...why, say('identify.wait-until'), ...walkLine(kept)],
        facts: [
          { name: 'result', value: 'hold', text: say('identify.result.hold') },
          { name: 'due', value: new Date(dueAtMs).toISOString() },
          ...(kept.number === null ? [] : [{ name: 'walk', value: kept.number }]),
        ],
        safety: { about: ['identification'] },
      },
    ),
    state: { kind: 'walk', walk: kept },
  }
}

/** The message that opens a look at a plant that was held. */
export async function lookAgain(walk: Live, tools: Pick<Tools, 'store' | 'today'>): Promise<Reply> {
  const place = placeWords(await placeOf(walk.body, tools))
  const to = (label: string, step: string): Choice => ({
    label: say(label),
    to: { step, value: walk.id ?? 0 },
  })
  return reply('question', say('identify.look-again-now'), {
    lines: [
      ...(place === null ? [] : [say('identify.at-place', { place })]),
      say('identify.look-again-how'),
      ...walkLine(walk),
    ],
    facts: walk.number === null ? [] : [{ name: 'walk', value: walk.number }],
    choices: [
      { ...to('identify.head-there', 'head-there'), look: 'main' },
      to('identify.head-not-yet', 'wait'),
      to('identify.leave', 'leave'),
    ],
    audience: 'person',
    safety: { about: ['identification'] },
  })
}
