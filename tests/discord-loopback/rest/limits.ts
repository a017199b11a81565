import { type LoggedRequest, matches, type RequestMatch } from '../ledger.ts'
import { type Answer, refuse } from './answers.ts'

interface Bucket {
  match: RequestMatch
  limit: number
  perMs: number
  id: string
}

interface Window {
  startedAtMs: number
  used: number
}

/** Headers of Discord developer docs, topics/rate-limits. */
type Headers = Record<string, string>

/** Routes that count toward no global limit (same page). */
const EXEMPT = /^\/(interactions|webhooks)\//

/** Shared by requests of one bucket that have channel, guild or webhook in common. */
const majorPart = (path: string) =>
  /^\/(channels|guilds|webhooks|interactions)\/[^/]+(\/[^/]+)?/.exec(path)?.[0] ?? ''

const seconds = (ms: number) => (ms / 1000).toFixed(3)

function tooMany(waitMs: number, global: boolean, headers: Headers): Answer {
  const body = { message: 'You are being rate limited.', retry_after: waitMs / 1000, global }
  return { ...refuse(429, 0, ''), body, headers: { ...headers, 'retry-after': seconds(waitMs) } }
}

/** Buckets by route, off until set. They run on real time, since the client really sleeps. */
export class Limits {
  readonly #buckets: Bucket[] = []
  readonly #windows = new Map<string, Window>()
  #globalPerSecond: number | undefined

  constructor(globalPerSecond?: number) {
    this.#globalPerSecond = globalPerSecond
  }

  /** From now on matching requests share a bucket of `limit` per `perMs`, and answers carry its headers. */
  bucket(match: RequestMatch, { limit, perMs }: { limit: number; perMs: number }): void {
    this.#buckets.push({ match, limit, perMs, id: `demo-bucket-${this.#buckets.length}` })
  }

  global(perSecond: number | undefined): void {
    this.#globalPerSecond = perSecond
  }

  /** Counts the request: headers to send along, and the 429 if it is one too many. */
  take(request: LoggedRequest): { headers: Headers; refusal?: Answer } {
    const overall = this.#globalPerSecond
    if (overall !== undefined && !EXEMPT.test(request.route)) {
      const waitMs = this.#use('global', overall, 1000).waitMs
      if (waitMs > 0) {
        const headers = { 'x-ratelimit-global': 'true', 'x-ratelimit-scope': 'global' }
        return { headers, refusal: tooMany(waitMs, true, headers) }
      }
    }
    const bucket = this.#buckets.find((each) => matches(each.match, request))
    return bucket === undefined ? { headers: {} } : this.#takeFrom(bucket, request)
  }

  #takeFrom({ id, limit, perMs }: Bucket, request: LoggedRequest) {
    const { waitMs, remaining, resetMs } = this.#use(`${id} ${majorPart(request.path)}`, limit, perMs)
    const headers: Headers = {
      'x-ratelimit-limit': String(limit),
      'x-ratelimit-remaining': String(remaining),
      'x-ratelimit-reset': seconds(Date.now() + resetMs),
      'x-ratelimit-reset-after': seconds(resetMs),
      'x-ratelimit-bucket': id,
    }
    if (waitMs === 0) return { headers }
    return { headers, refusal: tooMany(waitMs, false, { ...headers, 'x-ratelimit-scope': 'user' }) }
  }

  #use(key: string, limit: number, perMs: number): { waitMs: number; remaining: number; resetMs: number } {
    const now = Date.now()
    const known = this.#windows.get(key)
    const window =
      known === undefined || now - known.startedAtMs >= perMs ? { startedAtMs: now, used: 0 } : known
    this.#windows.set(key, window)
    const resetMs = perMs - (now - window.startedAtMs)
    if (window.used >= limit) return { waitMs: resetMs, remaining: 0, resetMs }
    window.used += 1
    return { waitMs: 0, remaining: limit - window.used, resetMs }
  }
}
