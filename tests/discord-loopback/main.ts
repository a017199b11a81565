/** Starts the stand-in by hand; see README.md beside this file. Ends on SIGINT or SIGTERM. */
import { readFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { WorldFile } from './control/schemas.ts'
import { startDiscord } from './stand-in.ts'
import type { WorldSeed } from './world/seeds.ts'

const { values } = parseArgs({
  options: {
    port: { type: 'string', default: '0' },
    bodies: { type: 'string' },
    world: { type: 'string' },
    shards: { type: 'string', default: '1' },
    'identify-interval': { type: 'string', default: '5000' },
  },
})

const world =
  values.world === undefined
    ? {}
    : (WorldFile.parse(JSON.parse(readFileSync(values.world, 'utf8'))) as WorldSeed)

const discord = await startDiscord({
  ...world,
  control: true,
  port: Number(values.port),
  shards: Number(values.shards),
  identifyIntervalMs: Number(values['identify-interval']),
  ...(values.bodies === undefined ? {} : { bodiesFile: values.bodies }),
})

const { api, token, port, applicationId } = discord
console.log(JSON.stringify({ api, token, port, applicationId, control: `http://127.0.0.1:${port}/control` }))

for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => void discord.stop())
