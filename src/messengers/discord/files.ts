import type { FetchFile } from '#src/desk/take-files.ts'

/** Where the platform keeps what people upload. */
const HOSTS = ['cdn.discordapp.com', 'media.discordapp.net']
const PATIENCE_MS = 10_000

/**
 * Fetches uploaded files, from the platform's own hosts only, never more than asked for.
 * @param extraHosts further `host` or `host:port`, reached without TLS if need be: for proxies and tests
 */
export function attachmentFetcher(extraHosts: readonly string[] = []): FetchFile {
  return async ({ url }, mostBytes) => {
    const address = new URL(url)
    const isOwn = address.protocol === 'https:' && HOSTS.includes(address.host)
    if (!isOwn && !extraHosts.includes(address.host))
      throw new Error(`Cannot fetch a file from "${address.host}": not one of the allowed hosts`)
    const response = await fetch(address, { redirect: 'error', signal: AbortSignal.timeout(PATIENCE_MS) })
    if (!response.ok || response.body === null)
      throw new Error(`Cannot fetch a file: it was answered with ${response.status}`)
    return readAtMost(response.body, mostBytes)
  }
}

/** Stops reading past the limit: what a header says of the length proves nothing. */
async function readAtMost(body: AsyncIterable<Uint8Array>, mostBytes: number): Promise<Uint8Array> {
  const parts: Uint8Array[] = []
  let total = 0
  for await (const part of body) {
    total += part.byteLength
    if (total > mostBytes) throw new Error(`Cannot fetch a file: it is larger than ${mostBytes} bytes`)
    parts.push(part)
  }
  return Buffer.concat(parts)
}
