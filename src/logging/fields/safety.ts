import { say } from '#src/conversation/text.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { entriesOf, type LogEnv } from '../env.ts'
import { bad, good, isNone, type LogField, type Patch } from './field.ts'
import { readMoment } from './when.ts'

const YES = /^(yes|y|done|true|s[ií]|hecho|listo)\.?$/i
const NO = /^(no|n|not yet|false|todav[ií]a no|a[uú]n no)\.?$/i

const yesNo = () => ({
  kind: 'choice' as const,
  options: [
    { value: 'yes', label: say('logging.yes') },
    { value: 'no', label: say('logging.no') },
  ],
})

const printYes = (value: boolean | undefined) => (value === undefined ? '' : value ? 'yes' : 'no')

/** A field that is answered with yes or no. */
function asked(
  keys: LogField['keys'],
  show: (env: LogEnv) => boolean | undefined,
  use: (yes: boolean, env: LogEnv) => Patch,
): LogField {
  return {
    keys,
    shape: yesNo,
    show: (env) => printYes(show(env)),
    read(text, env) {
      const typed = text.trim()
      if (YES.test(typed)) return good(use(true, env))
      return NO.test(typed) ? good(use(false, env)) : bad(say('logging.yes-no-needed', { typed: text }))
    },
  }
}

/** Everything that the labels of this tank ask for while spraying, as they print it. */
export function wearOf(env: LogEnv): string[] {
  return [...new Set(entriesOf(env).flatMap(({ safety }) => safety.spraying))].slice(0, 20)
}

export const ppe = asked(
  ['ppe'],
  ({ draft }) => recorded(draft.ppe)?.confirmed,
  (confirmed, env) => {
    const text = wearOf(env)
    return { ppe: { text: text.length === 0 ? ['As the label in hand asks'] : text, confirmed } }
  },
)

export const keepOff: LogField = {
  keys: ['keepOff'],
  show: ({ draft }) => recorded(draft.keepOff) ?? '',
  read: (text) => good({ keepOff: text.trim().slice(0, 200) }),
}

/** `dry`, or a time: `2 pm`, `tomorrow 8:00`. */
export const keepOffUntil: LogField = {
  keys: ['keepOffUntil'],
  show: ({ draft }) => {
    const said = recorded(draft.keepOffUntil)
    return said === undefined ? '' : 'untilDry' in said ? 'dry' : said.local
  },
  read(text, env) {
    if (/\b(dry|dried|sec[oa]|seque)\b/i.test(text)) return good({ keepOffUntil: { untilDry: true } })
    const moment = readMoment(text, env)
    return 'problem' in moment ? moment.problem : good({ keepOffUntil: moment })
  },
}

export const customerTold = asked(
  ['customerTold'],
  ({ draft }) => recorded(draft.customerTold),
  (customerTold) => ({ customerTold }),
)

export const posting = asked(
  ['posting'],
  ({ draft }) => recorded(draft.posting)?.done,
  (done) => ({ posting: { done } }),
)

export const notices: LogField = {
  keys: ['notices'],
  shape: ({ rules }) => ({
    kind: 'choices',
    options: [
      { value: 'none', label: say('logging.notice-none') },
      ...partiesOf(rules).map((to) => ({ value: to, label: say(`logging.notice.${to}`) })),
    ],
  }),
  show: ({ draft }) =>
    (recorded(draft.notices) ?? [])
      .filter(({ done }) => done)
      .map(({ to }) => to)
      .join(', '),
  read(text, { rules }) {
    const ticked = text.split(',').map((one) => one.trim())
    const parties = partiesOf(rules)
    const done = parties.filter((to) => ticked.includes(to))
    if (done.length === 0 && !isNone(ticked[0] ?? ''))
      return bad(say('logging.notice-needed', { typed: text }))
    return good({ notices: parties.map((to) => ({ to, done: done.includes(to) })) })
  },
}

function partiesOf({ state }: LogEnv['rules']): ('customer' | 'neighbor' | 'registry')[] {
  const named = [...new Set(state.notices.map(({ to }) => to))]
  return named.length === 0 ? ['customer', 'neighbor'] : named
}

export const fertilizer = asked(
  ['fertilizer'],
  ({ draft }) => recorded(draft.fertilizer)?.applied,
  (applied) => ({ fertilizer: { applied } }),
)
