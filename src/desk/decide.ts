import type { Ask } from '#src/conversation/ask.ts'
import { refill } from '#src/conversation/fields.ts'
import { Reply, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { savepoint, type Transaction, TransactionLost } from '#src/store/transaction.ts'
import type { Turn } from '#src/store/turns.ts'
import { isUnwritable } from '#src/store/unwritable.ts'
import { alarmingNames, withoutNames } from './alarming-names.ts'
import { type Answer, type Command, StaleState, type Tools } from './command.ts'
import type { Alarm, DeskParts } from './desk.ts'
import { freeTextsOf } from './free-texts.ts'
import { parseOptions } from './parse-options.ts'
import { commandOf, nameOf, type Pressed, type Target } from './target.ts'

/** What was found out about a request before its transaction began. */
export interface Circumstances {
  readonly problems: readonly Text[]
  readonly texts: ReadonlyMap<string, string>
  readonly allowed: boolean
  readonly recorded: boolean
}

/** One request with everything that is known of it. */
export interface Work {
  readonly ask: Ask
  readonly target: Target
  readonly tools: Tools
  readonly circumstances: Circumstances
  readonly transaction: Transaction
}

/** What becomes of a request: an answer, or the answer that somebody else has got already. */
export type Decision =
  | { readonly kind: 'answer'; readonly answer: Answer; readonly command: string; readonly version: number }
  | { readonly kind: 'taken'; readonly closedBy: string }

/** The first words of alarm in this request; those about a person before those about a spill. */
async function hear(parts: DeskParts, ask: Ask, store: Tools['store']): Promise<Alarm | undefined> {
  const texts = freeTextsOf(ask).filter((text) => parts.findEmergency(text) !== null)
  if (texts.length === 0) return undefined
  const names = await alarmingNames(store, (name) => parts.findEmergency(name) !== null)
  const heard = texts
    .map((text) => parts.findEmergency(withoutNames(text, names)))
    .filter((found) => found !== null)
  return heard.find(({ kind }) => kind !== 'spill') ?? heard[0]
}

/** May this be, and what is the answer? The order of the questions is the order of what matters more. */
export async function decide(parts: DeskParts, work: Work): Promise<Decision> {
  const { ask, target, tools, circumstances } = work
  const refuse = refusing(target)
  // Words of exposure come before everything else, a wrong option or a missing right included.
  const alarm = commandOf(target)?.copiesLabels ? undefined : await hear(parts, ask, tools.store)
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
  // An emergency waits for nobody.
  if (!circumstances.allowed && !commandOf(target)?.always) return refuse('desk.flood')
  if (target.kind === 'form-again') return refuse('desk.not-yours', await ownerOf(target.turn, tools))
  const problems = [...circumstances.problems, ...strayFields(work)]
  if (problems.length > 0) return reopen(work, problems) ?? refuse('desk.cannot', {}, problems)

  const { command } = target
  if (command.may === 'lead' && !tools.isLead) return refuse('desk.lead-only')
  if (command.stopsAfterExposure && (await tools.store.incidents.listOpen(tools.person.id)).length > 0)
    return refuse('desk.exposure-open')

  const pressed = target.kind === 'start' ? target.pressed : target
  const stopped = pressed === null ? null : await press(pressed, work)
  if (stopped !== null) return stopped

  if (target.kind === 'start') {
    const parsed = parseOptions(command, target.options)
    if (!parsed.ok) return refuse('desk.cannot', {}, parsed.problems)
    return run(parts, work, command, () => command.start(parsed.options as never, tools))
  }

  const { turn, event } = target
  if (turn.state !== null && turn.state.version !== command.stateVersion)
    return refuse('desk.changed', startAgain(command))
  const { next } = command
  if (next === undefined) return refuse('desk.cannot', {}, [say('desk.unknown-choice')])
  return run(parts, work, command, () => next((turn.state?.data ?? null) as never, event, tools))
}

/** May this person press it, and is it still open? Null when both hold, and it is then closed to everybody else. */
async function press(
  { turn, who, repeat }: Pressed,
  { ask, target, tools, circumstances }: Work,
): Promise<Decision | null> {
  const refuse = refusing(target)
  const isOwner = turn.personId === tools.person.id
  if (who === 'owner' && !isOwner) return refuse('desk.not-yours', await ownerOf(turn, tools))
  if (who === 'lead' && !tools.isLead) return refuse('desk.lead-only')
  if (!repeat && circumstances.recorded && !(await tools.store.turns.close(turn.id, ask.id))) {
    const closedBy = (await tools.store.turns.get(turn.id))?.closedBy
    if (closedBy) return { kind: 'taken', closedBy }
  }
  return null
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
    command: nameOf(target),
    version: 1,
  })

/** What was typed under a name that the form does not have: it is said, since it would be lost. */
function strayFields({ target, tools }: Work): Text[] {
  if (target.kind !== 'next' || target.event.kind !== 'submit') return []
  if (target.turn.personId !== tools.person.id) return []
  const allowed = (target.turn.reply.form?.fields ?? []).map(({ name }) => name)
  return Object.keys(target.event.fields)
    .filter((field) => !allowed.includes(field))
    .map((field) => say('desk.field-unknown', { field, allowed: { all: allowed, join: 'and' } }))
}

/** Their own form once more with all that was typed, when only a file or a name in it was wrong; null for anything else. */
function reopen({ target, tools }: Work, problems: readonly Text[]): Decision | null {
  if (target.kind !== 'next' || target.event.kind !== 'submit' || target.turn.reply.form === null) return null
  if (target.turn.personId !== tools.person.id || target.turn.closedBy !== null) return null
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
    const keeper = answer.keptAs === undefined ? command : parts.registry.get(answer.keptAs)
    if (keeper === undefined) throw new RangeError(`Cannot hand over to "${answer.keptAs}": no such command`)
    return { kind: 'answer', answer, command: keeper.name, version: keeper.stateVersion }
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
