import { z } from 'zod'
import { SET, withSet } from '#src/conversation/ask-for.ts'
import { filesOf, textOf } from '#src/conversation/fields.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { type Answer as Answered, type Event, StaleState, type Tools } from '#src/desk/command.ts'
import { plusAnswer } from './answers.ts'
import { askLeadForm, askName, flag, keepName, samplePage } from './flag.ts'
import { keepPhotos, keepWalk, walkById } from './keep.ts'
import { walkLine } from './lines.ts'
import { KeyOptions } from './options.ts'
import { mixPage, productsPage } from './products.ts'
import { questionPage } from './question.ts'
import { askCount, askDegrees, askWhen, planByCount, planByDegrees, planLook } from './remind.ts'
import { holdPage } from './results.ts'
import { asked, show, weigh } from './show.ts'
import { askObserved, readObserved, startKey } from './start.ts'
import type { Live, State } from './state.ts'
import { compared } from './take-comparison.ts'
import { turfPage } from './turf.ts'

type Work = (walk: Live, event: Event, tools: Tools) => Answered | Promise<Answered>

/** What each press and each form of a walk does. */
const STEPS: Readonly<Record<string, Work>> = {
  here: (walk, _event, tools) => show(walk, tools),
  resume: (walk, _event, tools) => show(walk, tools),
  answer: (walk, { value }, tools) => show({ ...walk, body: plusAnswer(walk.body, value) }, tools),
  again: (walk, { value }, tools) => show(walk, tools, { ask: String(value) }),
  back: (walk, _event, tools) =>
    show({ ...walk, body: { ...walk.body, answers: walk.body.answers.slice(0, -1) } }, tools),
  over: (walk, _event, tools) => show({ ...walk, body: { ...walk.body, answers: [] } }, tools),
  compared,
  typed,
  others,
  stop,
  turf: (walk, { value }, tools) => {
    const turfs = z.array(z.string()).parse(value)
    return show({ ...walk, body: { ...walk.body, turfs, turfUnknown: turfs.length === 0 } }, tools)
  },
  'which-turf': (walk, _event, tools) => turfPage(walk, tools),
  products: async (walk, _event, tools) => (await productsPage(walk, tools)) ?? show(walk, tools),
  mix: async (walk, { value }, tools) => (await mixPage(walk, String(value), tools)) ?? show(walk, tools),
  flag: (walk, _event, tools) => flag(walk, {}, tools),
  'ask-lead': (walk) => askLeadForm(walk),
  'asked-lead': (walk, event, tools) => flag(walk, event.kind === 'submit' ? event.fields : {}, tools),
  name: (walk, _event, tools) => askName(walk, tools),
  named: (walk, event, tools) => keepName(walk, event.kind === 'submit' ? event.fields : {}, tools),
  sample: (walk) => samplePage(walk),
  wait: (walk) => askWhen(walk),
  'wait-degrees': (walk) => askDegrees(walk),
  'degrees-days': planByDegrees,
  'wait-count': (walk, event) => askCount(walk, event),
  'counted-days': planByCount,
  'wait-days': (walk, { value }, tools) => planLook(walk, Number(value), tools),
  'head-there': (walk, _event, tools) => show({ ...walk, body: { ...walk.body, hasHead: true } }, tools),
  leave,
}

/** Carries a walk on by one press or one form. */
export async function nextKey(state: State, event: Event, tools: Tools): Promise<Answered> {
  if (event.step === 'new') return startKey({}, tools)
  if (state?.kind === 'asking') return startKey(readOptions(state.given, event), tools)
  const walk = state?.kind === 'walk' ? state.walk : await walkById(idIn(event.value), tools)
  const work = STEPS[event.step]
  if (walk === null || work === undefined)
    throw new StaleState('Cannot go on with this walk: it is not there')
  return work(walk, event, tools)
}

/** A message that came unasked names its walk, which is read as it stands by now. */
const idIn = (value: unknown) => (typeof value === 'number' ? value : null)

function readOptions(given: KeyOptions, event: Event): KeyOptions {
  if (event.step !== SET) throw new StaleState('Cannot read the answer to a name that was not clear')
  return KeyOptions.parse(withSet(given, event.value))
}

/** What was typed in the middle of a walk, and the photos beside it. */
async function typed(walk: Live, event: Event, tools: Tools): Promise<Answered> {
  const fields = event.kind === 'submit' ? event.fields : {}
  const photos = filesOf(fields, 'photo')
  const kept = photos.length === 0 ? walk : await keepWalk(walk, 'asking', tools)
  await keepPhotos(kept, photos, tools)
  const text = textOf(fields, 'observed')
  const read = readObserved(kept.body, text === '' ? undefined : text)
  if (!read.ok) return askObserved(kept, text, read.problems, tools)
  return show({ ...kept, body: read.body }, tools)
}

/** The states that had no room on the first page. */
async function others(walk: Live, { value }: Event, tools: Tools): Promise<Answered> {
  const weighed = await weigh(walk, tools)
  const own = asked(weighed)
  const question = own?.character.id === value ? own : asked(weighed, String(value))
  if (question === null) return show(walk, tools)
  return questionPage(walk, weighed.place, weighed.standing, question, { others: true })
}

/** No more questions: what is known so far, and what to do instead of spraying. */
async function stop(walk: Live, _event: Event, tools: Tools): Promise<Answered> {
  const weighed = await weigh(walk, tools)
  if (weighed.standing.result !== 'hold') return show(walk, tools)
  const kept = await keepWalk(walk, 'hold', tools)
  const page = holdPage(kept, weighed.place, weighed.explain())
  return { reply: page, state: { kind: 'walk', walk: kept } }
}

async function leave(walk: Live, _event: Event, tools: Tools): Promise<Answered> {
  const kept = await keepWalk(walk, 'left', tools)
  return {
    reply: reply('hold', say('identify.left'), {
      lines: walkLine(kept),
      facts: [{ name: 'result', value: 'hold', text: say('identify.result.hold') }],
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk: kept },
  }
}
