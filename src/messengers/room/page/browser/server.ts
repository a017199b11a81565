/// <reference lib="dom" />
import { openHub } from '../hub.ts'
import type { PageAnswer, PageRequest } from '../shapes.ts'
import { start } from './start.ts'

let token = start.token
/** Wakes what waits for the connection. */
const hub = openHub()

/** A stream that has come back brings the token of the process that serves it now. */
export function renewToken(fresh: string): void {
  token = fresh
  hub.poke()
}

const RETRY_MS = 1500
/** Told to people where the connection is gone; null once it is back. */
type Notice = (isLost: boolean) => void
let notice: Notice = () => undefined
export const onLost = (tell: Notice): void => {
  notice = tell
}

/** The server's answer says that the request itself cannot be. */
export class Refused extends Error {
  constructor(readonly status: number) {
    super(`Refused: ${status}`)
  }
}

/** Sends until it arrives: through a lost connection, and a server that starts anew. @throws Refused */
async function post(path: string, send: () => RequestInit, patient: boolean): Promise<unknown> {
  for (;;) {
    const response = await attempt(path, send())
    if (response?.ok) {
      notice(false)
      return response.json()
    }
    const again = response === null || response.status === 409 || response.status >= 502
    if (!again || !patient) throw new Refused(response?.status ?? 0)
    notice(true)
    await hub.next(RETRY_MS)
  }
}

async function attempt(path: string, init: RequestInit): Promise<Response | null> {
  try {
    return await fetch(path, { method: 'POST', ...init, headers: { ...init.headers, 'x-room-token': token } })
  } catch {
    return null
  }
}

const json = (data: unknown) => (): RequestInit => ({
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(data),
})

/** Asks once, however often it has to be sent: the id stays the same. */
export function ask(wants: PageRequest): Promise<PageAnswer> {
  const sent = { id: crypto.randomUUID(), as: start.person, wants }
  return post('/ask', json(sent), true) as Promise<PageAnswer>
}

export async function suggest(
  command: string,
  option: string,
  typed: string,
  options: Readonly<Record<string, string>>,
): Promise<readonly { readonly name: string; readonly value: string }[]> {
  const found = await post('/suggest', json({ as: start.person, command, option, typed, options }), false)
  return found as { name: string; value: string }[]
}

export async function complete(
  line: string,
): Promise<{ readonly found: readonly string[]; readonly replaced: string }> {
  const found = await post('/complete', json({ as: start.person, line }), false)
  return found as { found: string[]; replaced: string }
}

/** Sends a file ahead of the request that will name it. @throws Refused */
export async function upload(file: File): Promise<string> {
  const sent = await post(
    '/uploads',
    () => ({
      headers: {
        'content-type': file.type === '' ? 'application/octet-stream' : file.type,
        'x-file-name': encodeURIComponent(file.name),
      },
      body: file,
    }),
    true,
  )
  return (sent as { upload: string }).upload
}
