import type { APIInteraction, APIMessage } from 'discord-api-types/v10'
import { GatewayDispatchEvents, InteractionResponseType } from 'discord-api-types/v10'
import { isLoading } from '../messages.ts'
import type { Platform } from '../platform.ts'
import { PATIENCE_MS } from '../waiting.ts'
import type { FirstResponse, InteractionRecord, LaterMessage, RecordEvent, RefusedCall } from './record.ts'

/** An interaction on its way through the bot, as a test holds it. */
export class Fired {
  readonly record: InteractionRecord
  /** How many live sockets got it at once; 0 while the bot is away. */
  readonly delivered: number
  readonly #platform: Platform

  constructor(platform: Platform, record: InteractionRecord, delivered: number) {
    this.#platform = platform
    this.record = record
    this.delivered = delivered
  }

  get id(): string {
    return this.record.id
  }

  get frame(): APIInteraction {
    return this.record.frame
  }

  #events<K extends RecordEvent['kind']>(kind: K): Extract<RecordEvent, { kind: K }>[] {
    return this.#platform.interactions.events.all.filter(
      (event): event is Extract<RecordEvent, { kind: K }> =>
        event.kind === kind && event.record === this.record,
    )
  }

  /** The accepted first response, if it has come. */
  get response(): FirstResponse | undefined {
    return this.record.response
  }

  /** Edits of the answer, oldest first. */
  get edits(): LaterMessage[] {
    return this.#events('edit').map((event) => event.later)
  }

  get followUps(): LaterMessage[] {
    return this.#events('followUp').map((event) => event.later)
  }

  /** First responses that were turned down: broken rules, second answers, late ones. */
  get refused(): RefusedCall[] {
    return this.#events('refused').map((event) => event.refused)
  }

  /** The bot's first accepted response; rejects after `timeoutMs` of real time, saying what was refused. */
  async firstResponse(timeoutMs = PATIENCE_MS): Promise<FirstResponse> {
    if (this.record.response !== undefined) return this.record.response
    await this.#next((event) => event.kind === 'response', timeoutMs, 'first response')
    return this.record.response ?? this.firstResponse(timeoutMs)
  }

  /** The n-th edit (from 1), already there or still to come. */
  async edit(n = 1, timeoutMs = PATIENCE_MS): Promise<LaterMessage> {
    const found = this.edits[n - 1]
    if (found !== undefined) return found
    await this.#next((event) => event.kind === 'edit', timeoutMs, `edit ${n}`)
    return this.edit(n, timeoutMs)
  }

  /** The n-th follow-up (from 1), already there or still to come. */
  async followUp(n = 1, timeoutMs = PATIENCE_MS): Promise<LaterMessage> {
    const found = this.followUps[n - 1]
    if (found !== undefined) return found
    await this.#next((event) => event.kind === 'followUp', timeoutMs, `follow-up ${n}`)
    return this.followUp(n, timeoutMs)
  }

  /** The n-th refusal (from 1), already there or still to come. */
  async refusal(n = 1, timeoutMs = PATIENCE_MS): Promise<RefusedCall> {
    const found = this.refused[n - 1]
    if (found !== undefined) return found
    await this.#next((event) => event.kind === 'refused', timeoutMs, `refusal ${n}`)
    return this.refusal(n, timeoutMs)
  }

  /** The message that the person ends up with: the answer, or after a deferral its first edit. */
  async message(timeoutMs = PATIENCE_MS): Promise<APIMessage> {
    const { message } = await this.firstResponse(timeoutMs)
    if (message === undefined) throw new Error(`The answer to ${this.id} is no message`)
    if (isLoading(message)) await this.edit(1, timeoutMs)
    return message
  }

  /** The modal that the bot opened. */
  async modal(timeoutMs = PATIENCE_MS) {
    const { type, data } = await this.firstResponse(timeoutMs)
    if (type !== InteractionResponseType.Modal) throw new Error(`The answer to ${this.id} is no modal`)
    return data
  }

  /** Sends the very same frame again under a new number, as the platform may. */
  sendAgain(): number {
    return this.#platform.gateway.dispatch(
      GatewayDispatchEvents.InteractionCreate,
      this.record.frame,
      this.record.guild?.id,
    )
  }

  #next(matches: (event: RecordEvent) => boolean, timeoutMs: number, what: string): Promise<RecordEvent> {
    const explain = () => {
      const refused = this.refused.map((each) => JSON.stringify(each.error)).join('; ')
      return `No ${what} to interaction ${this.id} in ${timeoutMs} ms${refused === '' ? '' : `; refused: ${refused}`}`
    }
    const mine = (event: RecordEvent) => event.record === this.record && matches(event)
    return this.#platform.interactions.events.next(mine, timeoutMs, explain)
  }
}
