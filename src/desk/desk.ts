import { type Ask, type Speaker, UNREADABLE } from '#src/conversation/ask.ts'
import { refill } from '#src/conversation/fields.ts'
import { Reply, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { readToken } from '#src/conversation/token.ts'
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
import { strangePerson } from '#src/store/people.ts'
import { readOnly, savepoint, type Transaction, TransactionLost, write } from '#src/store/transaction.ts'
import type { State, Turn } from '#src/store/turns.ts'
import { isUnwritable } from '#src/store/unwritable.ts'
import { cleanAsk } from './clean-ask.ts'
import { dayIn } from './clock.ts'
import { type Answer, type Command, type Event, type FieldValue, StaleState, type Tools } from './command.ts'
import { floodGate } from './flood.ts'
import { freeTextsOf } from './free-texts.ts'
import { parseOptions } from './parse-options.ts'
import type { Registry } from './registry.ts'
import { type TakeFiles, type Taken, withoutFiles } from './take-files.ts'

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

interface Circumstances {
  readonly problems: readonly Text[]
  readonly texts: ReadonlyMap<string, string>
  readonly allowed: boolean
  readonly recorded: boolean
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
        command: target.kind === 'start' || target.kind === 'next' ? target.command.name : target.name,
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

  const isLead = person.role === 'lead' || leadsByMessenger
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
  const pressed = target.kind === 'next' ? await store.turns.get(target.turn.id) : undefined
  return {
    ...shown,
    closed: typeof pressed?.closedBy === 'string',
    reply,
    number: recorded ? row.number : null,
    turnId: recorded ? row.id : null,
    replayed: false,
  }
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
  const { id } = await findOrCreateCrew(transaction, spoken)
  await database.words.lockCrew(transaction, id)
  const crew = await getCrew(transaction, id)
  if (crew === undefined) throw new Error('Cannot find the crew whose lock is held')
  if (by.crewName === null || by.crewName === crew.name) return crew
  await updateCrew(transaction, id, { name: by.crewName })
  return { ...crew, name: by.crewName }
}

/** Until the messenger tells the crew's own name. */
const standInName = (crewKey: string) => `Crew ${crewKey.slice(-4)}`

type Target =
  | { readonly kind: 'unknown'; readonly name: string; readonly because: Text }
  | { readonly kind: 'form-again'; readonly name: string; readonly turn: Turn }
  | { readonly kind: 'start'; readonly command: Command; readonly options: Readonly<Record<string, unknown>> }
  | {
      readonly kind: 'next'
      readonly command: Command
      readonly turn: Turn
      readonly event: Event
      readonly who: 'owner' | 'lead' | 'crew'
      readonly repeat: boolean
    }

/** More of a command that does not exist is neither kept nor repeated. */
const LONGEST_NAME = 60

async function findTarget(
  registry: Registry,
  store: ReturnType<typeof crewStore>,
  ask: Ask,
): Promise<Target> {
  if (ask.kind === 'run') {
    const command = registry.get(ask.command)
    if (ask.command === UNREADABLE)
      return { kind: 'unknown', name: UNREADABLE, because: say('desk.malformed-line') }
    if (command === undefined) {
      const name = ask.command.slice(0, LONGEST_NAME)
      return { kind: 'unknown', name, because: say('desk.unknown-command', { name }) }
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
    if (ask.kind === 'press') return { kind: 'form-again', name: turn.command, turn }
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
  readonly target: Target
  readonly tools: Tools
  readonly circumstances: Circumstances
  readonly transaction: Transaction
}

type Decision =
  | { readonly kind: 'answer'; readonly answer: Answer; readonly command: string; readonly version: number }
  | { readonly kind: 'taken'; readonly closedBy: string }

/** The first words of alarm in this request; those about a person before those about a spill. */
function hear(parts: DeskParts, ask: Ask): Alarm | undefined {
  const heard = freeTextsOf(ask)
    .map(parts.findEmergency)
    .filter((found) => found !== null)
  return heard.find(({ kind }) => kind !== 'spill') ?? heard[0]
}

function copiesLabels(target: Target): boolean {
  return (target.kind === 'start' || target.kind === 'next') && target.command.copiesLabels === true
}

/** An emergency waits for nobody. */
function goesThrough(target: Target): boolean {
  return (target.kind === 'start' || target.kind === 'next') && target.command.always === true
}

async function decide(parts: DeskParts, work: Work): Promise<Decision> {
  const { ask, target, tools, circumstances } = work
  const refuse = refusing(target)
  // Words of exposure come before everything else, a wrong option or a missing right included.
  const alarm = copiesLabels(target) ? undefined : hear(parts, ask)
  const emergency = parts.registry.get('emergency')
  if (alarm !== undefined && emergency !== undefined) {
    if (circumstances.recorded && alarm.kind !== 'spill')
      await tools.store.incidents.open({
        personId: tools.person.id,
        turnId: tools.turn.id,
        words: alarm.matched,
        createdAtMs: tools.nowMs,
      })
    return run(parts, work, emergency, () => emergency.start({} as never, { ...tools, heard: alarm.matched }))
  }

  if (target.kind === 'unknown') return refuse('desk.cannot', {}, [target.because])
  if (!circumstances.allowed && !goesThrough(target)) return refuse('desk.flood')
  if (target.kind === 'form-again') return refuse('desk.not-yours', await ownerOf(target.turn, tools))
  if (circumstances.problems.length > 0)
    return reopen(target, circumstances.problems) ?? refuse('desk.cannot', {}, circumstances.problems)

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
  if (who === 'owner' && !isOwner) return refuse('desk.not-yours', await ownerOf(turn, tools))
  if (who === 'lead' && !tools.isLead) return refuse('desk.lead-only')
  if (!repeat && circumstances.recorded && !(await tools.store.turns.close(turn.id, ask.id))) {
    const closedBy = (await tools.store.turns.get(turn.id))?.closedBy
    if (closedBy) return { kind: 'taken', closedBy }
  }
  if (turn.state !== null && turn.state.version !== command.stateVersion)
    return refuse('desk.changed', startAgain(command))
  const { next } = command
  if (next === undefined) return refuse('desk.cannot', {}, [say('desk.unknown-choice')])
  return run(parts, work, command, () => next((turn.state?.data ?? null) as never, event, tools))
}

const startAgain = (command: Command) => ({ command: { literal: `/${command.name}` } })

async function ownerOf(turn: Turn, { store }: Tools): Promise<{ name: string }> {
  return { name: (await store.people.get(turn.personId))?.name ?? '' }
}

const refusing =
  (target: Target) =>
  (id: string, parameters: Parameters<typeof say>[1] = {}, lines: readonly Text[] = []): Decision => ({
    kind: 'answer',
    answer: { reply: reply('refusal', say(id, parameters), { audience: 'person', lines: [...lines] }) },
    command: target.kind === 'start' || target.kind === 'next' ? target.command.name : target.name,
    version: 1,
  })

/** The form once more with everything that was typed, when only a file of it was wrong; null for anything else. */
function reopen(target: Target, problems: readonly Text[]): Decision | null {
  if (target.kind !== 'next' || target.event.kind !== 'submit' || target.turn.reply.form === null) return null
  const { form, audience, safety } = target.turn.reply
  const { chosen: _chosen, ...about } = safety
  const again = reply('question', say('common.not-yet'), {
    lines: [...problems],
    form: {
      ...form,
      open: say('common.correct-it'),
      fields: refill(form.fields, target.event.fields),
    },
    audience,
    safety: about,
  })
  const { state } = target.turn
  return {
    kind: 'answer',
    answer: { reply: again, ...(state === null ? {} : { state: state.data }) },
    command: target.command.name,
    version: state?.version ?? 1,
  }
}

/** Runs the command so that a bug undoes its work alone: the turn is kept, with an apology. */
async function run(
  parts: DeskParts,
  { ask, target, tools, transaction, circumstances }: Work,
  command: Command,
  work: () => Promise<Answer>,
): Promise<Decision> {
  const refuse = refusing(target)
  try {
    const answer = await savepoint(transaction, async () => asKept(await work()))
    return { kind: 'answer', answer, command: command.name, version: command.stateVersion }
  } catch (error) {
    // Without a log nothing is changed: a command that wants to write is refused, one that only reckons has answered.
    if (isUnwritable(error) && !circumstances.recorded) return refuse('desk.cannot')
    if (isUnwritable(error) || error instanceof TransactionLost) throw error
    if (error instanceof StaleState) return refuse('desk.changed', startAgain(command))
    parts.reportError(error, { request: ask.id, command: command.name, number: tools.turn.number })
    return refuse('desk.error', { number: String(tools.turn.number) })
  }
}

/** The answer as it will be read again, which is how it is shown the first time too. A reply that cannot be kept throws. */
function asKept(answer: Answer): Answer {
  return { ...answer, reply: Reply.parse(JSON.parse(JSON.stringify(answer.reply))) }
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
