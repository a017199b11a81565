import type { Ask, Speaker } from '#src/conversation/ask.ts'
import type { Reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { crewStore } from '#src/store/crew-store.ts'
import {
  type Crew,
  findCrew,
  findOrCreateCrew,
  getCrew,
  type NewCrew,
  raiseBookRevision,
  strangeCrew,
  updateCrew,
} from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import { type Person, strangePerson } from '#src/store/people.ts'
import { readOnly, type Transaction, write } from '#src/store/transaction.ts'
import type { State, Turn } from '#src/store/turns.ts'
import { isUnwritable } from '#src/store/unwritable.ts'
import { cleanAsk } from './clean-ask.ts'
import { dayIn } from './clock.ts'
import type { Tools } from './command.ts'
import { type Circumstances, decide } from './decide.ts'
import { floodGate } from './flood.ts'
import type { Registry } from './registry.ts'
import { type TakeFiles, type Taken, withoutFiles } from './take-files.ts'
import { findTarget, nameOf } from './target.ts'

/** What a messenger shows: the reply, and under which number and turn it is kept. */
export interface Answered {
  readonly reply: Reply
  /** Null only when the store could not be written; the reply says so. */
  readonly number: number | null
  readonly turnId: number | null
  readonly language: { readonly person: string; readonly crew: string }
  readonly zone: string
  /** Kept from before: this request, or this press, had been answered already. */
  readonly replayed: boolean
  /** The choice or form that was used is used up, by this request or an earlier one; a messenger may gray it. */
  readonly closed?: boolean
  readonly demo: boolean
}

/** What was heard: a spill brings the card, words of a person's exposure or illness also stop the mixing. */
export interface Alarm {
  readonly kind: 'exposure' | 'illness' | 'spill'
  readonly matched: string
}

export interface DeskParts {
  readonly database: Database
  readonly registry: Registry
  readonly defaultZone: string
  readonly takeFiles: TakeFiles
  /** Finds words of exposure or illness of a person in what somebody typed. */
  readonly findEmergency: (text: string) => Alarm | null
  readonly chooseSafety: (reply: Reply, number: number) => readonly string[]
  readonly reportError: (error: unknown, about: Readonly<Record<string, unknown>>) => void
  readonly flood?: (person: string, nowMs: number) => boolean
}

export interface Desk {
  answer(ask: Ask): Promise<Answered>
  /** Shows a kept answer again, as it was; null when this person may not see it. Writes nothing. */
  recall(turnId: number, by: Speaker): Promise<Answered | null>
}

/** One path for every request: each step below stands in the order in which it happens. */
export function openDesk(parts: DeskParts): Desk {
  const withinAllowance = parts.flood ?? floodGate()

  return {
    async answer(asked) {
      const taken = await takeFiles(parts, cleanAsk(asked))
      const ask = taken.ask
      const allowed = withinAllowance(`${ask.by.crewKey}/${ask.by.personKey}`, ask.atMs)
      const job = (transaction: Transaction, recorded: boolean) =>
        answerWithin(parts, transaction, ask, { ...taken, allowed, recorded })
      try {
        return await write(parts.database, (transaction) => job(transaction, true))
      } catch (error) {
        if (!isUnwritable(error)) throw error
        parts.reportError(error, { request: ask.id, about: 'the store cannot be written' })
        return readOnly(parts.database, (transaction) => job(transaction, false))
      }
    },

    recall: (turnId, by) => readOnly(parts.database, (transaction) => recallWithin(transaction, turnId, by)),
  }
}

/** Files that cannot be kept, on a full disk for instance, are a problem of this request and not the end of it. */
async function takeFiles(parts: DeskParts, ask: Ask): Promise<Taken> {
  try {
    return await parts.takeFiles(ask)
  } catch (error) {
    parts.reportError(error, { request: ask.id, about: 'a file cannot be kept' })
    const { ask: without, names } = withoutFiles(ask)
    return {
      ask: without,
      problems: [say('desk.file-failed', { file: { all: names } })],
      texts: new Map(),
    }
  }
}

async function recallWithin(transaction: Transaction, turnId: number, by: Speaker): Promise<Answered | null> {
  const crew = await findCrew(transaction, by.crewKey)
  if (crew === undefined) return null
  const store = crewStore(transaction, crew.id)
  const person = await store.people.find(by.personKey)
  const turn = await store.turns.get(turnId)
  if (turn === undefined || (turn.reply.audience === 'person' && turn.personId !== person?.id)) return null
  return {
    reply: turn.reply,
    number: turn.number,
    turnId: turn.id,
    language: { person: person?.language ?? languageOf(by.locale), crew: crew.language },
    zone: crew.zone,
    replayed: true,
    demo: crew.demo,
  }
}

async function answerWithin(
  parts: DeskParts,
  transaction: Transaction,
  ask: Ask,
  circumstances: Circumstances,
): Promise<Answered> {
  const { recorded } = circumstances
  const crew = await enterCrew(parts, transaction, ask, recorded)
  const store = crewStore(transaction, crew.id)
  const leadsByMessenger =
    ask.by.runsServer || (crew.settings.leadRole !== null && ask.by.roles.includes(crew.settings.leadRole))
  const spoken = {
    key: ask.by.personKey,
    name: ask.by.personName,
    atMs: ask.atMs,
    // A direct message tells neither channel nor rights: what was last known of them stays.
    ...(ask.by.channelKey === null ? {} : { channelKey: ask.by.channelKey, leadsByMessenger }),
  }
  const person = recorded
    ? await store.people.findOrCreate(spoken)
    : ((await store.people.find(spoken.key)) ?? strangePerson(spoken))
  const today = dayIn(crew.zone, ask.atMs)
  const shown = {
    language: { person: person.language ?? languageOf(ask.by.locale), crew: crew.language },
    zone: crew.zone,
    demo: crew.demo,
  }
  const kept = (turn: Turn): Answered => ({
    ...shown,
    reply: turn.reply,
    number: turn.number,
    turnId: turn.id,
    replayed: true,
  })

  const target = await findTarget(parts.registry, store, ask)
  if (target.kind === 'form-again' && target.turn.personId === person.id) return kept(target.turn)

  const row = recorded
    ? await store.turns.create({
        requestId: ask.id,
        personId: person.id,
        command: nameOf(target),
        asked: askedOf(ask),
        atMs: ask.atMs,
        day: today,
      })
    : { id: 0, number: 0 }
  if (row === undefined) {
    const before = await store.turns.findByRequest(ask.id)
    if (before === undefined) throw new Error('A request was answered and its answer is gone')
    return kept(before)
  }

  const isLead = person.role === 'lead' || leadsByMessenger || ledLately(person, ask)
  const tools: Tools = {
    crew,
    person,
    isLead,
    store,
    nowMs: ask.atMs,
    today,
    turn: row,
    channelKey: ask.by.channelKey,
    locale: shown.language.person,
    heard: null,
    texts: circumstances.texts,
    canWrite: recorded,
    updateCrew: (change) => updateCrew(transaction, crew.id, change),
    namesChanged: () => raiseBookRevision(transaction, crew.id),
  }

  const decided = await decide(parts, { ask, target, tools, circumstances, transaction })
  if (decided.kind === 'taken') {
    await store.turns.remove(row.id)
    const winner = await store.turns.findByRequest(decided.closedBy)
    if (winner === undefined) throw new Error('A choice was taken and its answer is gone')
    return { ...kept(winner), closed: true }
  }

  const reply = withSafety(parts, decided.answer.reply, row.number, recorded)
  const state: State | null =
    decided.answer.state === undefined
      ? null
      : ({ version: decided.version, data: decided.answer.state } as State)
  if (recorded) await store.turns.finish(row.id, decided.command, reply, state)
  const used = target.kind === 'start' ? target.pressed : target.kind === 'next' ? target : null
  return {
    ...shown,
    closed: used !== null && (await store.turns.isClosed(used.turn.id)),
    reply,
    number: recorded ? row.number : null,
    turnId: recorded ? row.id : null,
    replayed: false,
  }
}

/** A right that the messenger gives is trusted this long where it cannot be asked again. */
const LED_LATELY_MS = 24 * 3_600_000

/**
 * A direct message tells no roles. Who was called a lead in the crew itself within a day still is one; whose role was
 * taken away stops with the next word in the crew, or after that day.
 */
function ledLately({ leads, settings: { ledAtMs } }: Person, { by, atMs }: Ask): boolean {
  return by.channelKey === null && leads && ledAtMs !== undefined && atMs - ledAtMs <= LED_LATELY_MS
}

/** The crew as it stands once its lock is held: read before, it might miss what the request ahead has changed. */
async function enterCrew(
  { database, defaultZone }: DeskParts,
  transaction: Transaction,
  { by, atMs }: Ask,
  recorded: boolean,
): Promise<Crew> {
  const spoken: NewCrew = {
    key: by.crewKey,
    name: by.crewName ?? standInName(by.crewKey),
    language: languageOf(by.crewLocale),
    zone: defaultZone,
    atMs,
  }
  if (!recorded) return (await findCrew(transaction, spoken.key)) ?? strangeCrew(spoken)
  const found = await findOrCreateCrew(transaction, spoken)
  const { id } = found
  const crew = (await database.words.lockCrew(transaction, id)) ? await getCrew(transaction, id) : found
  if (crew === undefined) throw new Error('Cannot find the crew whose lock is held')
  if (by.crewName === null || by.crewName === crew.name) return crew
  await updateCrew(transaction, id, { name: by.crewName })
  return { ...crew, name: by.crewName }
}

/** Until the messenger tells the crew's own name. */
const standInName = (crewKey: string) => `Crew ${crewKey.slice(-4)}`

function withSafety(parts: DeskParts, answer: Reply, number: number, recorded: boolean): Reply {
  const chosen = [...parts.chooseSafety(answer, number)]
  const lines = recorded ? answer.lines : [say('desk.not-recorded'), ...answer.lines]
  return { ...answer, lines, safety: { ...answer.safety, chosen } }
}

/** What was asked, as it is kept: without the messenger's own links. */
function askedOf(ask: Ask): unknown {
  if (ask.kind === 'run') return { kind: ask.kind, command: ask.command, options: ask.options }
  if (ask.kind === 'press') return { kind: ask.kind, token: ask.token }
  return { kind: ask.kind, token: ask.token, fields: ask.fields }
}

/** `es-MX` and `es-419` are read in Spanish; anything unknown in English. */
export function languageOf(locale: string): string {
  return locale === 'en-XA' ? locale : (locale.split('-')[0] ?? 'en')
}
