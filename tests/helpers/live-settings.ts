import { createServer } from 'node:net'
import type { DatabaseAddress } from '#src/store/open.ts'
import type { DiscordStandIn } from '#tests/discord-loopback/index.ts'

/** The address as DATABASE_URL tells it to a process. */
export function urlOf(address: DatabaseAddress): string {
  if (address.engine === 'sqlite') return `sqlite:${address.path}`
  const url = new URL(address.url)
  if (address.schema !== undefined) url.searchParams.set('options', `-c search_path=${address.schema}`)
  return url.href
}

/** What a bot in a process of its own is told: which messenger, which store, where its files are; no page. */
export function liveSettings(
  { token, api }: Pick<DiscordStandIn, 'token' | 'api'>,
  { address, files }: { readonly address: DatabaseAddress; readonly files: string },
) {
  return {
    DISCORD_TOKEN: token,
    DISCORD_API: api,
    DATABASE_URL: urlOf(address),
    FILES_FOLDER: files,
    CREW_TIMEZONE: 'America/Chicago',
    LOG_LEVEL: 'info',
    PORT: '',
  }
}

/** A port of this machine that nobody listens on. */
export async function freePort(): Promise<number> {
  const server = createServer()
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  const address = server.address()
  await new Promise((done) => server.close(done))
  return typeof address === 'object' && address !== null ? address.port : 0
}
