import { type LoggedRequest, matches, type RequestMatch } from '../ledger.ts'
import { type Answer, refusals } from './answers.ts'

/**
 * What happens to a request instead of, or beside, its proper treatment. `before`: the request has no effect;
 * `after`: it is carried out, and only the answer is kept back or lost.
 */
export type Fault =
  | { kind: 'pass' }
  | { kind: 'answer'; answer: Answer }
  | { kind: 'delay'; ms: number; when: 'before' | 'after' }
  | { kind: 'drop'; when: 'before' | 'after' }

export interface FaultOptions {
  /** How many requests it strikes. @default 1 */
  times?: number
}

interface Planned {
  match: RequestMatch
  decide: (request: LoggedRequest) => Fault
  left: number
}

/** Planned trouble, first match first. Each method returns a function that calls it off. */
export class Faults {
  readonly #planned: Planned[] = []

  /** Decides by itself, request by request; `{ kind: 'pass' }` leaves it alone and still counts. */
  plan(
    match: RequestMatch,
    decide: (request: LoggedRequest) => Fault,
    { times = 1 }: FaultOptions = {},
  ): () => void {
    const planned: Planned = { match, decide, left: times }
    this.#planned.push(planned)
    return () => {
      planned.left = 0
    }
  }

  answer(match: RequestMatch, answer: Answer, options?: FaultOptions): () => void {
    return this.plan(match, () => ({ kind: 'answer', answer }), options)
  }

  serverError(match: RequestMatch, options?: FaultOptions & { status?: number }): () => void {
    const status = options?.status ?? 500
    return this.answer(
      match,
      { status, body: { message: `${status}: Internal Server Error`, code: 0 } },
      options,
    )
  }

  unauthorized(match: RequestMatch, options?: FaultOptions): () => void {
    return this.answer(match, refusals.unauthorized(), options)
  }

  /** A 429 with the header that clients go by, and the body that people read. */
  tooMany(
    match: RequestMatch,
    { retryAfterS, global = false, ...options }: FaultOptions & { retryAfterS: number; global?: boolean },
  ): () => void {
    const headers: Record<string, string> = {
      'retry-after': String(retryAfterS),
      'x-ratelimit-scope': global ? 'global' : 'user',
      ...(global ? { 'x-ratelimit-global': 'true' } : {}),
    }
    const body = { message: 'You are being rate limited.', retry_after: retryAfterS, global }
    return this.answer(match, { status: 429, body, headers }, options)
  }

  delay(match: RequestMatch, ms: number, options?: FaultOptions & { when?: 'before' | 'after' }): () => void {
    return this.plan(match, () => ({ kind: 'delay', ms, when: options?.when ?? 'after' }), options)
  }

  /** Cuts the connection. @default after the request was carried out */
  drop(match: RequestMatch, options?: FaultOptions & { when?: 'before' | 'after' }): () => void {
    return this.plan(match, () => ({ kind: 'drop', when: options?.when ?? 'after' }), options)
  }

  /** What strikes this request, if anything; used up by asking. */
  strike(request: LoggedRequest): Fault {
    const planned = this.#planned.find((each) => each.left > 0 && matches(each.match, request))
    if (planned === undefined) return { kind: 'pass' }
    planned.left -= 1
    return planned.decide(request)
  }
}
