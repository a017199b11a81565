import { appendFileSync } from 'node:fs'
import type { Finding } from './rules/findings.ts'
import { PATIENCE_MS, Waiting } from './waiting.ts'

/** One request as received, and what became of it. */
export interface LoggedRequest {
  n: number
  atMs: number
  method: string
  /** Path template as in the published API description, or the plain path if no route fits. */
  route: string
  path: string
  query: Record<string, string>
  authorized: boolean
  body: unknown
  files: { name: string; sizeBytes: number; contentType: string }[]
  /** Undefined while under way, 0 if the connection was cut. */
  status: number | undefined
  /** The platform's error code, if refused. */
  code: number | undefined
}

/** Picks requests: by method and route template (text: equal or ends so), or by a question. */
export type RequestMatch =
  | { method?: string; route?: string | RegExp }
  | ((request: LoggedRequest) => boolean)

export function matches(match: RequestMatch, request: LoggedRequest): boolean {
  if (typeof match === 'function') return match(request)
  const { method, route } = match
  if (method !== undefined && method.toUpperCase() !== request.method) return false
  if (route === undefined) return true
  return typeof route === 'string' ? request.route.endsWith(route) : route.test(request.route)
}

/** A rule that was broken, and by which request. */
export interface Violation extends Finding {
  request: string
}

/** Everything that was asked of the stand-in, what was wrong with it, and how often. */
export class Ledger {
  /** In the order of their arrival. */
  readonly requests: LoggedRequest[] = []
  readonly #answered = new Waiting<LoggedRequest>()
  readonly violations: Violation[] = []
  readonly warnings: Violation[] = []
  /** Calls to routes that the stand-in does not know. */
  readonly unexpected: string[] = []
  readonly counts = { connections: 0, identifies: 0, resumes: 0, invalidSessions: 0, invalidRequests: 0 }
  readonly byRoute = new Map<string, number>()
  readonly #bodiesFile: string | undefined
  #n = 0

  constructor(bodiesFile?: string) {
    this.#bodiesFile = bodiesFile
  }

  open(request: Omit<LoggedRequest, 'n' | 'status' | 'code'>): LoggedRequest {
    this.#n += 1
    const logged: LoggedRequest = { n: this.#n, ...request, status: undefined, code: undefined }
    const key = `${logged.method} ${logged.route}`
    this.byRoute.set(key, (this.byRoute.get(key) ?? 0) + 1)
    this.requests.push(logged)
    return logged
  }

  /** Notes the outcome; with a bodies file, every request that had a body becomes a line of it. */
  close(request: LoggedRequest, status: number, code: number | undefined): void {
    request.status = status
    request.code = code
    if (status === 401 || status === 403 || status === 429) this.counts.invalidRequests += 1
    if (this.#bodiesFile !== undefined && request.body !== undefined)
      appendFileSync(this.#bodiesFile, `${JSON.stringify(request)}\n`)
    this.#answered.push(request)
  }

  note(request: LoggedRequest, breaches: readonly Finding[], warnings: readonly Finding[] = []): void {
    const name = `${request.method} ${request.route}`
    this.violations.push(...breaches.map((each) => ({ request: name, ...each })))
    this.warnings.push(...warnings.map((each) => ({ request: name, ...each })))
  }

  requestsTo(match: RequestMatch): LoggedRequest[] {
    return this.requests.filter((each) => matches(match, each))
  }

  /** The next matching request to be answered from now on. */
  nextRequest(match: RequestMatch, timeoutMs = PATIENCE_MS): Promise<LoggedRequest> {
    return this.#answered.next(
      (each) => matches(match, each),
      timeoutMs,
      () => `No such request in ${timeoutMs} ms`,
    )
  }

  /** Throws with the list if any rule was broken or any unknown route was called. */
  assertClean(): void {
    const lines = [
      ...this.violations.map((v) => `${v.request}: ${v.path} ${v.code} ${v.message}`),
      ...this.unexpected.map((route) => `${route}: no such route`),
    ]
    if (lines.length > 0) throw new Error(`The platform would have refused:\n${lines.join('\n')}`)
  }
}
