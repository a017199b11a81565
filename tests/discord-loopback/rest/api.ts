import type { IncomingMessage } from 'node:http'
import { setTimeout as sleep } from 'node:timers/promises'
import type { LoggedRequest } from '../ledger.ts'
import type { Platform } from '../platform.ts'
import { type Answer, codeOf, type ErrorBody, refusals } from './answers.ts'
import { type ParsedBody, parseBody, readBytes } from './body.ts'
import type { Route } from './call.ts'
import { findRoute } from './router.ts'

export const API_PREFIX = '/api/v10'

interface Received {
  request: LoggedRequest
  found: { route: Route; params: Record<string, string> } | undefined
  parsed: ParsedBody
  query: URLSearchParams
  authorization: string | undefined
}

async function receive(message: IncomingMessage, url: URL, platform: Platform): Promise<Received> {
  const method = message.method ?? 'GET'
  const path = url.pathname.slice(API_PREFIX.length)
  const found = findRoute(method, path)
  const parsed = await parseBody(await readBytes(message), message.headers['content-type'])
  const files = parsed.ok ? parsed.files : []
  const request = platform.ledger.open({
    atMs: platform.clock.nowMs(),
    method,
    route: found?.route.template ?? path,
    path,
    query: Object.fromEntries(url.searchParams),
    authorized: message.headers.authorization !== undefined,
    body: parsed.ok ? parsed.json : undefined,
    files: files.map(({ name, bytes, contentType }) => ({ name, sizeBytes: bytes.length, contentType })),
  })
  return { request, found, parsed, query: url.searchParams, authorization: message.headers.authorization }
}

/** Token, body, then the route itself. */
function treat({ request, found, parsed, query, authorization }: Received, platform: Platform): Answer {
  if (found === undefined) {
    platform.ledger.unexpected.push(`${request.method} ${request.path}`)
    return refusals.unknownRoute()
  }
  if (found.route.bot && authorization !== `Bot ${platform.token}`) return refusals.unauthorized()
  if (!parsed.ok) {
    const message = parsed.problem === 'too-large' ? 'Over 25 MiB' : 'Not JSON'
    platform.ledger.note(request, [{ path: '', code: parsed.problem, message }])
    return parsed.problem === 'too-large' ? refusals.tooLarge() : refusals.badJson()
  }
  const limited = platform.limits.take(request)
  const answer =
    limited.refusal ??
    found.route.handle(
      { params: found.params, query, json: parsed.json, files: parsed.files, request },
      platform,
    )
  return { ...answer, headers: { ...limited.headers, ...answer.headers } }
}

/** A first response that was turned down, for whatever reason, is remembered with its interaction. */
function rememberRefusal({ found, request }: Received, answer: Answer | undefined, platform: Platform): void {
  const id = found?.params.interaction_id
  const record = id === undefined ? undefined : platform.interactions.byId(id)
  if (record === undefined || answer === undefined || answer.status < 400) return
  const refused = { status: answer.status, error: answer.body as ErrorBody, body: request.body }
  platform.interactions.events.push({ kind: 'refused', record, refused })
}

/** One API request from arrival to answer; undefined means: cut the connection. */
export async function serveApi(
  message: IncomingMessage,
  url: URL,
  platform: Platform,
): Promise<Answer | undefined> {
  const received = await receive(message, url, platform)
  const { request } = received
  const close = (answer: Answer | undefined) => {
    platform.ledger.close(request, answer?.status ?? 0, answer === undefined ? undefined : codeOf(answer))
    rememberRefusal(received, answer, platform)
    return answer
  }
  const fault = platform.faults.strike(request)
  if (fault.kind === 'answer') return close(fault.answer)
  if (fault.kind === 'drop' && fault.when === 'before') return close(undefined)
  if (fault.kind === 'delay' && fault.when === 'before') await sleep(fault.ms)
  const answer = treat(received, platform)
  if (fault.kind === 'delay' && fault.when === 'after') await sleep(fault.ms)
  return close(fault.kind === 'drop' ? undefined : answer)
}
