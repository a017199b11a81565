import { execFile } from 'node:child_process'
import { promisify } from 'node:util'
import { bundleForNow } from '#src/bundle.mjs'
import { projectRoot } from '#src/project.ts'
import { startDiscord } from '#tests/discord-loopback/index.ts'
import { rounded } from './figures.ts'

/** Kilobytes of heap that one more server takes in the client, between two numbers of servers. */
export async function measureServers(servers = 2000): Promise<number> {
  const { file, remove } = await bundleForNow(projectRoot(), 'tests/bench/servers-bot.ts')
  try {
    const [few, many] = [await heapWith(file, 1), await heapWith(file, 1 + servers)]
    return rounded((many - few) / servers / 1024, 2)
  } finally {
    remove()
  }
}

async function heapWith(file: string, servers: number): Promise<number> {
  const platform = await startDiscord({
    identifyIntervalMs: 0,
    users: [{ name: 'demo.lead' }],
    guilds: Array.from({ length: servers }, (_, at) => ({
      name: `Demo Grounds ${at}`,
      owner: 'demo.lead',
      channels: [{ name: `field ${at}` }],
      members: [{ user: 'demo.lead' }],
    })),
  })
  try {
    const { stdout } = await promisify(execFile)(process.execPath, ['--expose-gc', file], {
      cwd: projectRoot(),
      env: { PATH: process.env.PATH, DISCORD_API: platform.api, DISCORD_TOKEN: platform.token },
    })
    const seen = JSON.parse(stdout) as { heapUsed: number; servers: number }
    if (seen.servers !== servers) throw new Error(`The client knows ${seen.servers} of ${servers} servers`)
    return seen.heapUsed
  } finally {
    await platform.stop()
  }
}
