import { type Ask, UNREADABLE } from '#src/conversation/ask.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { readToken } from '#src/conversation/token.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { Turn } from '#src/store/turns.ts'
import type { Command, Event, FieldValue } from './command.ts'
import type { Registry } from './registry.ts'

/** What a request is about: a command to start, a step of one that goes on, a form to see again, or nothing known. */
export type Target =
  | { readonly kind: 'unknown'; readonly name: string; readonly because: Text }
  | { readonly kind: 'form-again'; readonly name: string; readonly turn: Turn }
  | {
      readonly kind: 'start'
      readonly command: Command
      readonly options: Readonly<Record<string, unknown>>
      /** The choice that started it; null when somebody typed it. */
      readonly pressed: Pressed | null
    }
  | ({ readonly kind: 'next'; readonly command: Command; readonly event: Event } & Pressed)

/** The choice or the form of an earlier answer, and who may use it. */
export interface Pressed {
  readonly turn: Turn
  readonly who: 'owner' | 'lead' | 'crew'
  readonly repeat: boolean
}

/** More of a command that does not exist is neither kept nor repeated. */
const LONGEST_NAME = 60

/** Finds the command that a request starts or goes on with. Whose choice it is, is not asked here. */
export async function findTarget(registry: Registry, store: CrewStore, ask: Ask): Promise<Target> {
  if (ask.kind === 'run') {
    const command = registry.get(ask.command)
    if (ask.command === UNREADABLE)
      return { kind: 'unknown', name: UNREADABLE, because: say('desk.malformed-line') }
    if (command === undefined) {
      const name = ask.command.slice(0, LONGEST_NAME)
      return { kind: 'unknown', name, because: say('desk.unknown-command', { name }) }
    }
    return { kind: 'start', command, options: ask.options, pressed: null }
  }
  const gone: Target = { kind: 'unknown', name: 'choice', because: say('desk.unknown-choice') }
  const token = readToken(ask.token)
  const turn = token === null ? undefined : await store.turns.get(token.turnId)
  if (token === null || turn === undefined) return gone
  const command = registry.get(turn.command)
  if (command === undefined) return gone
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
  const pressed: Pressed = { turn, who: choice.who ?? 'owner', repeat: choice.repeat ?? false }
  const { to } = choice
  if ('command' in to) {
    const started = registry.get(to.command)
    return started === undefined ? gone : { kind: 'start', command: started, options: to.options, pressed }
  }
  const event: Event = { kind: 'press', step: to.step, value: to.value }
  return { kind: 'next', command, event, ...pressed }
}

/** The command that a request is for, where it is for one. */
export function commandOf(target: Target): Command | null {
  return target.kind === 'start' || target.kind === 'next' ? target.command : null
}

/** The name under which the request is kept. */
export function nameOf(target: Target): string {
  return target.kind === 'start' || target.kind === 'next' ? target.command.name : target.name
}
