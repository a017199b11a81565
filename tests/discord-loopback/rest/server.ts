import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import type { Platform } from '../platform.ts'
import { type Answer, refusals } from './answers.ts'
import { API_PREFIX, serveApi } from './api.ts'

/** Serves other paths of the same port, e.g. `/control`; undefined: not mine. */
export type ExtraRoute = (message: IncomingMessage, url: URL) => Promise<Answer | undefined>

function serveFile(url: URL, platform: Platform): Answer {
  const file = platform.files.open(decodeURIComponent(url.pathname), url.searchParams)
  if (file === undefined)
    return {
      status: 404,
      bytes: Buffer.from('This content is no longer available.'),
      headers: { 'content-type': 'text/plain' },
    }
  return { status: 200, bytes: file.bytes, headers: { 'content-type': file.contentType } }
}

/** Clients take a body for JSON only by its content type. */
function write(response: ServerResponse, answer: Answer): void {
  const json = answer.body === undefined ? undefined : Buffer.from(JSON.stringify(answer.body))
  const payload = json ?? answer.bytes
  const type = json === undefined ? {} : { 'content-type': 'application/json' }
  const length = payload === undefined ? {} : { 'content-length': String(payload.length) }
  response.writeHead(answer.status, { ...type, ...length, ...answer.headers })
  response.end(payload)
}

async function route(
  message: IncomingMessage,
  platform: Platform,
  extra: ExtraRoute,
): Promise<Answer | undefined> {
  const url = new URL(message.url ?? '/', platform.origin)
  if (url.pathname.startsWith(`${API_PREFIX}/`)) return serveApi(message, url, platform)
  if (url.pathname.startsWith('/attachments/')) return serveFile(url, platform)
  const answer = await extra(message, url)
  if (answer !== undefined) return answer
  platform.ledger.unexpected.push(`${message.method} ${url.pathname}`)
  return refusals.unknownRoute()
}

/** REST, file links and gateway upgrades on one port of this machine. */
export class LoopbackServer {
  readonly #platform: Platform
  readonly #extra: ExtraRoute
  #server: Server | undefined
  #port = 0
  /** A bug in the stand-in itself; thrown again by `close`, so that no test passes over it. */
  #crash: unknown

  constructor(platform: Platform, extra: ExtraRoute = async () => undefined) {
    this.#platform = platform
    this.#extra = extra
  }

  get port(): number {
    return this.#port
  }

  /** Listens on the given port, or on any free one; a second time on the same as before. */
  async listen(port = this.#port): Promise<void> {
    const server = createServer((message, response) => void this.#serve(message, response))
    server.on('upgrade', (message, socket, head) => this.#platform.gateway.upgrade(message, socket, head))
    await new Promise<void>((resolve, reject) => {
      server.once('error', reject)
      server.listen(port, '127.0.0.1', resolve)
    })
    this.#server = server
    this.#port = (server.address() as AddressInfo).port
    this.#platform.origin = `http://127.0.0.1:${this.#port}`
    this.#platform.files.origin = this.#platform.origin
    this.#platform.gateway.url = `ws://127.0.0.1:${this.#port}`
  }

  async #serve(message: IncomingMessage, response: ServerResponse): Promise<void> {
    try {
      const answer = await route(message, this.#platform, this.#extra)
      if (answer === undefined) message.socket.destroy()
      else write(response, answer)
    } catch (error) {
      this.#crash ??= error
      message.socket.destroy()
    }
  }

  /** Cuts all connections and stops listening. `listen()` brings it back on the same port. */
  async close(): Promise<void> {
    const server = this.#server
    this.#server = undefined
    this.#platform.gateway.terminateAll()
    if (server !== undefined) {
      const closed = new Promise<void>((resolve) => server.close(() => resolve()))
      server.closeAllConnections()
      await closed
    }
    if (this.#crash !== undefined) throw this.#crash
  }
}
