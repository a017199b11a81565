import http from 'node:http'

export interface Got {
  readonly status: number
  readonly headers: http.IncomingHttpHeaders
  readonly text: string
}

/** A request with exactly these headers: what a hostile page or tool could send, which `fetch` would mend. */
export function request(
  address: string,
  parts: {
    readonly method?: string
    readonly path?: string
    readonly headers?: Readonly<Record<string, string>>
    readonly body?: string | Uint8Array
  } = {},
): Promise<Got> {
  return new Promise((done, fail) => {
    const sent = http.request(
      `${address}${parts.path ?? '/'}`,
      { method: parts.method ?? 'GET', headers: parts.headers ?? {}, agent: false },
      (response) => {
        const pieces: Buffer[] = []
        response.on('data', (piece: Buffer) => {
          pieces.push(piece)
          // A stream never ends: what it says first is enough.
          if (response.headers['content-type']?.startsWith('text/event-stream')) response.destroy()
        })
        response.on('close', () => {
          sent.destroy()
          done({
            status: response.statusCode ?? 0,
            headers: response.headers,
            text: Buffer.concat(pieces).toString(),
          })
        })
      },
    )
    sent.on('error', fail)
    sent.end(parts.body)
  })
}

/** The token that stands in a page. */
export async function tokenOf(address: string, as = 'bex'): Promise<string> {
  const { text } = await request(address, { path: `/?as=${as}` })
  return /"token":"([^"]+)"/.exec(text)?.[1] ?? ''
}
