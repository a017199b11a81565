/** The program's client alone, with whatever it keeps of the servers that the gateway names; prints its heap. */
import { Events } from 'discord.js'
import { buildClient } from '#src/messengers/discord/client.ts'

const quiet = { debug() {}, info() {}, warn() {}, error() {} }
const client = buildClient({
  api: process.env.DISCORD_API ?? '',
  log: quiet,
  onInteraction() {},
  onEnded() {},
})
client.once(Events.ClientReady, () => {
  // What came is parsed and let go before it is weighed.
  setTimeout(() => {
    globalThis.gc?.()
    const { heapUsed } = process.memoryUsage()
    process.stdout.write(`${JSON.stringify({ heapUsed, servers: client.guilds.cache.size })}\n`)
    process.exit(0)
  }, 500)
})
await client.login(process.env.DISCORD_TOKEN)
