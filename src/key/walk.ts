import { z } from 'zod'
import { Settings } from './settings.ts'

const Confirmed = { confirmed: z.boolean().optional() }

/**
 * One answer. `confirmed`: a second look said the same. `states`: one or several states ("either" where only one can hold, "and" where several may).
 * `range`: a measured number or span in the character's unit. `absent`: the plant has no such part.
 */
export const Answer = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('states'),
    character: z.string(),
    states: z.array(z.string()).min(1),
    ...Confirmed,
  }),
  z.strictObject({
    kind: z.literal('range'),
    character: z.string(),
    from: z.number(),
    to: z.number(),
    ...Confirmed,
  }),
  z.strictObject({ kind: z.literal('cant-tell'), character: z.string() }),
  z.strictObject({ kind: z.literal('absent'), character: z.string(), ...Confirmed }),
])
export type Answer = z.infer<typeof Answer>

/** What grows here: on the area's record (an overseed among it), typed by whoever asks, or not known. */
export const TurfContext = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('record'), turfs: z.array(z.string()).min(1) }),
  z.strictObject({ kind: z.literal('typed'), turfs: z.array(z.string()).min(1) }),
  z.strictObject({ kind: z.literal('unknown') }),
])
export type TurfContext = z.infer<typeof TurfContext>

/** A walk through the key: all that is needed to go on from where it stood. `guess`: plant or group ids. */
export const Walk = z.strictObject({
  turf: TurfContext,
  answers: z.array(Answer),
  guess: z.array(z.string()).optional(),
  mown: z.boolean(),
  settings: Settings.optional(),
})
export type Walk = z.infer<typeof Walk>

/**
 * The walk with this answer in place of any former answer on the same character. The same answer given again counts
 * as confirmed; "can't tell" on a second look leaves the first answer but marks it, so that it is not asked again.
 */
export function withAnswer(walk: Walk, answer: Answer): Walk {
  const former = walk.answers.find((one) => one.character === answer.character)
  const others = walk.answers.filter((one) => one.character !== answer.character)
  return { ...walk, answers: [...others, secondLook(former, answer)] }
}

function secondLook(former: Answer | undefined, answer: Answer): Answer {
  if (former === undefined || former.kind === 'cant-tell') return answer
  if (answer.kind === 'cant-tell') return { ...former, confirmed: former.confirmed ?? false }
  return { ...answer, confirmed: sameAnswer(former, answer) }
}

function sameAnswer(one: Answer, other: Answer): boolean {
  if (one.kind === 'states' && other.kind === 'states') {
    return [...one.states].sort().join('|') === [...other.states].sort().join('|')
  }
  if (one.kind === 'range' && other.kind === 'range') return one.from === other.from && one.to === other.to
  return one.kind === other.kind
}

/** The walk without its last answer. */
export function withoutLast(walk: Walk): Walk {
  return { ...walk, answers: walk.answers.slice(0, -1) }
}
