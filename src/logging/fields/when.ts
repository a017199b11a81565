import { say } from '#src/conversation/text.ts'
import { minutesOf, momentAt, momentOf } from '#src/desk/moments.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { dayOf, type Moment } from '#src/record/values.ts'
import { readWhen } from '#src/when/read-when.ts'
import { whenTrouble } from '#src/when/trouble.ts'
import type { LogEnv } from '../env.ts'
import { bad, good, type LogField, languageOf, type Read } from './field.ts'

const clock = (moment: Moment | undefined) => moment?.local.slice(11) ?? ''

function nowOf({ tools }: LogEnv): { readonly day: string; readonly minutes: number } {
  return { day: tools.today, minutes: minutesOf(momentOf(tools.crew.zone, tools.nowMs)) }
}

/** The time of a job: on its own day unless another one is typed. */
export function readMoment(text: string, env: LogEnv): Moment | { readonly problem: Read } {
  const read = readWhen(text, { now: nowOf(env), language: languageOf(env), toward: 'past' })
  if (!read.ok) return { problem: bad(whenTrouble(read.error)) }
  const { day, minutes } = read.value
  if (minutes === undefined) return { problem: bad(say('logging.time-needed', { typed: text })) }
  return momentAt(env.tools.crew.zone, day ?? recorded(env.draft.date) ?? env.tools.today, minutes)
}

export const date: LogField = {
  keys: ['date'],
  show: ({ draft }) => recorded(draft.date) ?? '',
  read(text, env) {
    const read = readWhen(text, { now: nowOf(env), language: languageOf(env), toward: 'past' })
    if (!read.ok) return bad(whenTrouble(read.error))
    const { day } = read.value
    return day === undefined ? bad(say('logging.day-needed', { typed: text })) : good({ date: day })
  },
}

export const startedAt: LogField = {
  keys: ['startedAt'],
  show: ({ draft }) => clock(recorded(draft.startedAt)),
  read(text, env) {
    const moment = readMoment(text, env)
    if ('problem' in moment) return moment.problem
    // A day typed with the start is the day of the job.
    return good({
      startedAt: moment,
      ...(/\d\D+\d{1,2}:?\d*\s*$|ayer|yesterday/i.test(text) ? { date: dayOf(moment) } : {}),
    })
  },
}

export const endedAt: LogField = {
  keys: ['endedAt'],
  show: ({ draft }) => clock(recorded(draft.endedAt)),
  read(text, env) {
    const moment = readMoment(text, env)
    return 'problem' in moment ? moment.problem : good({ endedAt: moment })
  },
}
