import { reply } from '#src/conversation/reply.ts'
import { asTyped, say, type Text } from '#src/conversation/text.ts'
import type { Answer as Answered, Tools } from '#src/desk/command.ts'
import { parseObserved } from '#src/key/index.ts'
import { findPlace } from '#src/mixing/resolve.ts'
import { plants } from '#src/plants.ts'
import type { WalkBody } from '#src/store/walks.ts'
import { newAnswers, plusAnswers } from './answers.ts'
import { emptyBody, findWalk, keepPhotos, keepWalk } from './keep.ts'
import { listWalks } from './list.ts'
import type { KeyOptions } from './options.ts'
import { sayProblems } from './problems.ts'
import { observedForm } from './question.ts'
import { readGuess, readTurf } from './read-names.ts'
import { show } from './show.ts'
import type { Live } from './state.ts'
import { askTurf } from './turf.ts'

const NEW: Live = { id: null, number: null, body: emptyBody }

/** Begins a walk, or takes one up again; whatever was said in the same line is taken in before the first question. */
export async function startKey(given: KeyOptions, tools: Tools): Promise<Answered> {
  const from = given.resume === undefined ? NEW : await resumed(given.resume, tools)
  if (from === null) return listWalks(tools, given.resume)
  const place = await findPlace(given, tools)
  if (!place.ok) return { ...place.ask, state: { kind: 'asking', given } }
  const turf = given.turf === undefined ? null : readTurf(given.turf)
  if (turf !== null && !turf.ok) return askTurf(given, turf.typed, turf.nearest)
  const { site, area } = place.value
  const told: WalkBody = {
    ...from.body,
    ...(site === null ? {} : { siteId: site.id, areaId: area?.id ?? null }),
    ...(turf === null ? {} : { turfs: [...turf.taxa], turfUnknown: turf.taxa.length === 0 }),
    ...(given.guess === undefined ? {} : { guess: readGuess(given.guess) }),
    ...(given.mown === undefined ? {} : { mown: given.mown }),
  }
  const headed = tellHead(told, given.seed_head)
  const read = readObserved(headed, given.observed)
  if (!read.ok) return askObserved({ ...from, body: headed }, given.observed ?? '', read.problems, tools)
  const walk = { ...from, body: read.body }
  const photos = given.photo === undefined ? [] : [given.photo]
  const kept = photos.length === 0 ? walk : await keepWalk(walk, 'asking', tools)
  await keepPhotos(kept, photos, tools)
  return withNotes(await show(kept, tools), unknownGuess(given))
}

async function resumed(text: string, tools: Tools): Promise<Live | null> {
  return /^\d+$/.test(text) ? findWalk(Number(text), tools) : null
}

/** "No seed head" is an answer; that there is one only says what to ask first. */
function tellHead(body: WalkBody, head: boolean | undefined): WalkBody {
  if (head === undefined) return body
  if (head) return { ...body, hasHead: true }
  const none = { kind: 'states' as const, character: 'seedhead', states: ['none-seen'] }
  return plusAnswers(body, newAnswers(body, [none]))
}

type Read =
  | { readonly ok: true; readonly body: WalkBody }
  | { readonly ok: false; readonly problems: readonly Text[] }

/** Nothing of a list is taken while part of it is not understood: what was meant might have decided otherwise. */
export function readObserved(body: WalkBody, text: string | undefined): Read {
  if (text === undefined) return { ok: true, body }
  const { answers, problems } = parseObserved(plants(), text)
  if (problems.length > 0) return { ok: false, problems: sayProblems(problems) }
  return { ok: true, body: plusAnswers(body, newAnswers(body, answers)) }
}

/** The list once more, with what was not understood and what would be. */
export async function askObserved(
  walk: Live,
  typed: string,
  problems: readonly Text[],
  tools: Tools,
): Promise<Answered> {
  const kept = await keepWalk(walk, 'asking', tools)
  return {
    reply: reply('question', say('identify.not-understood'), {
      lines: [...problems, asTyped(typed)],
      facts: [
        { name: 'result', value: 'hold', text: say('identify.result.hold') },
        ...(kept.number === null ? [] : [{ name: 'walk', value: kept.number }]),
      ],
      choices: [{ label: say('identify.without-it'), to: { step: 'here' } }],
      form: observedForm(typed, true),
      audience: 'person',
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk: kept },
  }
}

function unknownGuess({ guess }: KeyOptions): Text[] {
  return guess !== undefined && readGuess(guess) === null ? [say('identify.guess-unknown', { guess })] : []
}

function withNotes(answer: Answered, notes: readonly Text[]): Answered {
  return notes.length === 0
    ? answer
    : { ...answer, reply: { ...answer.reply, lines: [...notes, ...answer.reply.lines] } }
}
