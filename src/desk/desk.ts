import { type Ask, type Speaker, UNREADABLE } from '#src/conversation/ask.ts'
import { type Reply, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { readToken } from '#src/conversation/token.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew, findOrCreateCrew, raiseBookRevision, updateCrew } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import { readOnly, savepoint, type Transaction, write } from '#src/store/transaction.ts'
import type { State, Turn } from '#src/store/turns.ts'
import { isUnwritable } from '#src/store/unwritable.ts'
import { dayIn } from './clock.ts'
import type { Answer, Command, Event, FieldValue, Tools } from './command.ts'
import { floodGate } from './flood.ts'
import { freeTextsOf } from './free-texts.ts'
import { parseOptions } from './parse-options.ts'
import type { Registry } from './registry.ts'
import type { TakeFiles } from './take-files.ts'

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

export interface DeskParts {
  readonly database: Database
  readonly registry: Registry
  readonly defaultZone: string
  readonly takeFiles: TakeFiles
  /** Finds words of exposure or illness of a person in what somebody typed. */
  readonly findEmergency: (text: string) => string | null
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
      const taken = await parts.takeFiles(asked)
      const ask = taken.ask
      const allowed = withinAllowance(`${ask.by.crewKey}/${ask.by.personKey}`, ask.atMs)
      const job = (transaction: Transaction, recorded: boolean) =>
        answerWithin(parts, transaction, ask, { problems: taken.problems, allowed, recorded })
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

interface Circumstances {
  readonly problems: readonly Text[]
  readonly allowed: boolean
  readonly recorded: boolean
}

async function answerWithin(
  parts: DeskParts,
  transaction: Transaction,
  ask: Ask,
  circumstances: Circumstances,
): Promise<Answered> {
  const crew = await findOrCreateCrew(transaction, {
    key: ask.by.crewKey,
    name: ask.by.crewName,
    language: languageOf(ask.by.crewLocale),
    zone: parts.defaultZone,
    atMs: ask.atMs,
  })
  await parts.database.words.lockCrew(transaction, crew.id)
  const store = crewStore(transaction, crew.id)
  const person = await store.people.findOrCreate({
    key: ask.by.personKey,
    name: ask.by.personName,
    atMs: ask.atMs,
  })
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
  if (target.kind === 'form-again') return kept(target.turn)

  const row = circumstances.recorded
    ? await store.turns.create({
        requestId: ask.id,
        personId: person.id,
        command: target.kind === 'unknown' ? target.name : target.command.name,
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

  const isLead =
    person.role === 'lead' ||
    ask.by.runsServer ||
    (crew.settings.leadRole !== null && ask.by.roles.includes(crew.settings.leadRole))
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

  const reply = withSafety(parts, decided.answer.reply, row.number, circumstances.recorded)
  const state: State | null =
    decided.answer.state === undefined
      ? null
      : ({ version: decided.version, data: decided.answer.state } as State)
  if (circumstances.recorded) await store.turns.finish(row.id, reply, state)
  const pressed = target.kind === 'next' ? await store.turns.get(target.turn.id) : undefined
  return {
    ...shown,
    closed: typeof pressed?.closedBy === 'string',
    reply,
    number: circumstances.recorded ? row.number : null,
    turnId: circumstances.recorded ? row.id : null,
    replayed: false,
  }
}

type Target =
  | { readonly kind: 'unknown'; readonly name: string; readonly because: Text }
  | { readonly kind: 'form-again'; readonly turn: Turn }
  | { readonly kind: 'start'; readonly command: Command; readonly options: Readonly<Record<string, unknown>> }
  | {
      readonly kind: 'next'
      readonly command: Command
      readonly turn: Turn
      readonly event: Event
      readonly who: 'owner' | 'lead' | 'crew'
      readonly repeat: boolean
    }

async function findTarget(
  registry: Registry,
  store: ReturnType<typeof crewStore>,
  ask: Ask,
): Promise<Target> {
  if (ask.kind === 'run') {
    const command = registry.get(ask.command)
    if (ask.command === UNREADABLE)
      return { kind: 'unknown', name: UNREADABLE, because: say('desk.malformed-line') }
    if (command === undefined)
      return {
        kind: 'unknown',
        name: ask.command,
        because: say('desk.unknown-command', { name: ask.command }),
      }
    return { kind: 'start', command, options: ask.options }
  }
  const gone: Target = { kind: 'unknown', name: 'choice', because: say('desk.unknown-choice') }
  const token = readToken(ask.token)
  const turn = token === null ? undefined : await store.turns.get(token.turnId)
  if (token === null || turn === undefined) return gone
  const command = registry.get(turn.command)
  if (command?.next === undefined) return gone
  if (token.choice === 'form') {
    const form = turn.reply.form
    if (form === null) return gone
    if (ask.kind === 'press') return { kind: 'form-again', turn }
    const event: Event = {
      kind: 'submit',
      step: form.to.step,
      value: form.to.value,
      fields: ask.fields as Readonly<Record<string, FieldValue>>,
    }
    return { kind: 'next', command, turn, event, who: 'owner', repeat: false }
  }
  const choice = turn.reply.choices[token.choice - 1]
  if (choice === undefined || ask.kind === 'submit') return gone
  return {
    kind: 'next',
    command,
    turn,
    event: { kind: 'press', step: choice.to.step, value: choice.to.value },
    who: choice.who ?? 'owner',
    repeat: choice.repeat ?? false,
  }
}

interface Work {
  readonly ask: Ask
  readonly target: Exclude<Target, { kind: 'form-again' }>
  readonly tools: Tools
  readonly circumstances: Circumstances
  readonly transaction: Transaction
}

type Decision =
  | { readonly kind: 'answer'; readonly answer: Answer; readonly version: number }
  | { readonly kind: 'taken'; readonly closedBy: string }

const refuse = (
  id: string,
  parameters: Parameters<typeof say>[1] = {},
  lines: readonly Text[] = [],
): Decision => ({
  kind: 'answer',
  answer: { reply: reply('refusal', say(id, parameters), { audience: 'person', lines: [...lines] }) },
  version: 1,
})

async function decide(parts: DeskParts, work: Work): Promise<Decision> {
  const { ask, target, tools, circumstances } = work
  // Words of exposure come before everything else, a wrong option or a missing right included.
  const alarm = freeTextsOf(ask)
    .map(parts.findEmergency)
    .find((found) => found !== null)
  const emergency = parts.registry.get('emergency')
  if (alarm && emergency !== undefined) {
    if (circumstances.recorded)
      await tools.store.incidents.open({
        personId: tools.person.id,
        turnId: tools.turn.id,
        words: alarm,
        createdAtMs: tools.nowMs,
      })
    return run(parts, work, emergency, () => emergency.start({} as never, { ...tools, heard: alarm }))
  }

  if (target.kind === 'unknown') return refuse('desk.cannot', {}, [target.because])
  if (!circumstances.allowed) return refuse('desk.flood')
  if (circumstances.problems.length > 0) return refuse('desk.cannot', {}, circumstances.problems)

  const { command } = target
  if (command.may === 'lead' && !tools.isLead) return refuse('desk.lead-only')
  if (command.stopsAfterExposure && (await tools.store.incidents.listOpen(tools.person.id)).length > 0)
    return refuse('desk.exposure-open')

  if (target.kind === 'start') {
    const parsed = parseOptions(command, target.options)
    if (!parsed.ok) return refuse('desk.cannot', {}, parsed.problems)
    return run(parts, work, command, () => command.start(parsed.options as never, tools))
  }

  const { turn, event, who, repeat } = target
  const isOwner = turn.personId === tools.person.id
  if (who === 'owner' && !isOwner) {
    const owner = await tools.store.people.get(turn.personId)
    return refuse('desk.not-yours', { name: owner?.name ?? '' })
  }
  if (who === 'lead' && !tools.isLead) return refuse('desk.lead-only')
  if (!repeat && circumstances.recorded && !(await tools.store.turns.close(turn.id, ask.id))) {
    const closedBy = (await tools.store.turns.get(turn.id))?.closedBy
    if (closedBy) return { kind: 'taken', closedBy }
  }
  if (turn.state !== null && turn.state.version !== command.stateVersion)
    return refuse('desk.changed', { command: { literal: `/${command.name}` } })
  const { next } = command
  if (next === undefined) return refuse('desk.cannot', {}, [say('desk.unknown-choice')])
  return run(parts, work, command, () => next((turn.state?.data ?? null) as never, event, tools))
}

/** Runs the command so that a bug undoes its work alone: the turn is kept, with an apology. */
async function run(
  parts: DeskParts,
  { ask, tools, transaction }: Work,
  command: Command,
  work: () => Promise<Answer>,
): Promise<Decision> {
  try {
    const answer = await savepoint(transaction, work)
    return { kind: 'answer', answer, version: command.stateVersion }
  } catch (error) {
    if (isUnwritable(error)) throw error
    parts.reportError(error, { request: ask.id, command: command.name, number: tools.turn.number })
    return refuse('desk.error', { number: String(tools.turn.number) })
  }
}

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
