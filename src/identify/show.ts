import type { Reply } from '#src/conversation/reply.ts'
import type { Answer as Answered, Tools } from '#src/desk/command.ts'
import { type Considered, consider, type Question, type Walk } from '#src/key/index.ts'
import { BoundedMap } from '#src/memory/bounded-map.ts'
import { plants } from '#src/plants.ts'
import { foldAnswers } from './answers.ts'
import { withFlag } from './flagged.ts'
import { keepWalk } from './keep.ts'
import { type Place, placeOf, walkOf } from './place.ts'
import { questionOn, questionPage } from './question.ts'
import { holdPage, ownPage, weedPage } from './results.ts'
import type { Live } from './state.ts'
import { turfPage } from './turf.ts'

/** A walk with what the key makes of it. */
export interface Weighed extends Considered {
  readonly walk: Live
  readonly place: Place
}

export async function weigh(walk: Live, tools: Tools): Promise<Weighed> {
  const place = await placeOf(walk.body, tools)
  return { walk, place, ...considered(walkOf(walk.body, place)) }
}

/** Many people are asked the same first questions, and weighing all plants takes longer than the rest of an answer. */
const WALKS_KEPT = 200
const recent = new BoundedMap<string, Considered>(WALKS_KEPT)

function considered(walk: Walk): Considered {
  const key = JSON.stringify(walk)
  const found = recent.get(key) ?? consider(plants(), walk)
  recent.set(key, found)
  return found
}

/**
 * Keeps the walk and shows where it stands: a result, or the next question. `ask`: the character to ask about, over
 * the key's own choice.
 */
export async function show(
  walk: Live,
  tools: Tools,
  { ask }: { readonly ask?: string } = {},
): Promise<Answered> {
  const weighed = await weigh(walk, tools)
  const { place, standing } = weighed
  const asksTurf = place.turf.kind === 'unknown' && !walk.body.turfUnknown && walk.body.answers.length === 0
  if (asksTurf) return turfPage(await keepWalk(walk, 'asking', tools), tools)
  const question = asked(weighed, ask)
  const status = question === null ? standing.result : 'asking'
  const kept = await keepWalk(walk, status, tools)
  const answer =
    question === null
      ? { reply: resultPage({ ...weighed, walk: kept }), state: { kind: 'walk', walk: kept } }
      : questionPage(kept, place, standing, question)
  return { ...answer, reply: await withFlag(answer.reply, kept, tools) }
}

export function resultPage({ walk, place, explain }: Weighed): Reply {
  const assessment = explain()
  if (assessment.result === 'weed') return weedPage(walk, place, assessment)
  if (assessment.result === 'own-turf') return ownPage(walk, place, assessment)
  return holdPage(walk, place, assessment)
}

/** The question on the table: one's own choosing, a head that is there and not described, or the key's. */
export function asked({ walk, standing, question }: Weighed, ask?: string): Question | null {
  if (ask !== undefined) return questionOn(ask, isAnswered(walk, ask))
  if (standing.result !== 'hold') return null
  return walk.body.hasHead ? questionOn('seedhead', false) : question
}

function isAnswered({ body }: Live, character: string): boolean {
  return foldAnswers(body.answers).some((answer) => answer.character === character)
}
