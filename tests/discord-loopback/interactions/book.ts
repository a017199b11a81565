import type { Clock } from '../clock.ts'
import { Waiting } from '../waiting.ts'
import { FIRST_RESPONSE_MS, type InteractionRecord, type RecordEvent, TOKEN_LIFE_MS } from './record.ts'

export type Found = { ok: true; record: InteractionRecord } | { ok: false; why: 'unknown' | 'expired' }

/** All interactions of the stand-in and what happened to them. */
export class InteractionBook {
  readonly events = new Waiting<RecordEvent>()
  readonly #byId = new Map<string, InteractionRecord>()
  readonly #byToken = new Map<string, InteractionRecord>()
  readonly #clock: Clock

  constructor(clock: Clock) {
    this.#clock = clock
  }

  add(record: InteractionRecord): void {
    this.#byId.set(record.id, record)
    this.#byToken.set(record.token, record)
  }

  get all(): InteractionRecord[] {
    return [...this.#byId.values()]
  }

  byId(id: string): InteractionRecord | undefined {
    return this.#byId.get(id)
  }

  /** For the first response: id and token must belong together, and the three seconds must not be over. */
  forCallback(id: string, token: string): InteractionRecord | undefined {
    const record = this.#byId.get(id)
    if (record === undefined || record.token !== token) return undefined
    const late = this.#clock.nowMs() - record.createdAtMs > FIRST_RESPONSE_MS
    return late && record.response === undefined ? undefined : record
  }

  /** For everything after: the token lives fifteen minutes, and only if there was a first response. */
  forWebhook(token: string): Found {
    const record = this.#byToken.get(token)
    if (record?.response === undefined) return { ok: false, why: 'unknown' }
    const expired = this.#clock.nowMs() - record.createdAtMs > TOKEN_LIFE_MS
    return expired ? { ok: false, why: 'expired' } : { ok: true, record }
  }
}
