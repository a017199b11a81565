import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { bundleForNow } from '#src/bundle.mjs'
import { projectRoot } from '#src/project.ts'
import type { DatabaseAddress } from '#src/store/open.ts'
import { openDatabase } from '#src/store/open.ts'
import { type DiscordStandIn, startDiscord } from '#tests/discord-loopback/index.ts'
import { seedCrew } from '#tests/e2e-discord/seed.ts'
import { liveSettings } from '#tests/helpers/live-settings.ts'
import { type RunningBot, startBot } from './bots.ts'
import { rounded } from './figures.ts'
import { databaseOn } from './postgres.ts'
import { processorMsOfAll } from './processor.ts'
import { MIX } from './requests.ts'

/** How many requests a second were answered, with so many people asking at once. */
export type Throughput = {
  readonly name: string
  readonly engine: 'sqlite' | 'postgres'
  readonly processes: number
  readonly per_second: number
  /** Requests that the platform had given up before their answer came. */
  readonly late: number
  readonly p99_ms: number
  /** Processor time of all bots for one request. */
  readonly cpu_ms: number | null
  /** Processor time of the database server for one request, where it runs on this machine. */
  readonly database_ms: number | null
  /** Against the bot that says back what it is told, with one durable insert. */
  readonly ratio: number | null
}

/** Requests on their way at any time. */
const IN_FLIGHT = 16
/** Servers, each with a shard of its own where there are several processes. */
const SERVERS = 4
/** So many that nobody asks more often than the flood gate lets anybody. */
const PEOPLE = 400
/** What is sustained is asked of bots that have been at it for a while. */
const WARM_UP_MS = 5000
/** The platform takes no first answer after three seconds. */
const LATEST_MS = 3500

const DURABLE = 'echo with one durable insert'

interface Load {
  readonly name: string
  readonly options: Readonly<Record<string, string>>
}

const ECHO: Load = { name: 'echo', options: { text: 'Half the water, then the product' } }
const OWN: readonly Load[] = [
  { name: 'rate', options: { amount: '3 pt/acre', to: 'fl oz/1000 ft2' } },
  { name: 'mix', options: MIX },
]

/** One bot after another, each alone on the machine: somebody always asks, and the next when that is answered. */
export async function measureThroughput(
  seconds: number,
  postgres: string | null,
): Promise<readonly Throughput[]> {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-bench-'))
  const [echo, own] = [
    await bundleForNow(projectRoot(), 'tests/bench/echo-bot.ts'),
    await bundleForNow(projectRoot(), 'src/main.ts'),
  ]
  try {
    const found: Throughput[] = []
    const base = await runEcho(echo.file, folder, seconds)
    found.push({ name: DURABLE, engine: 'sqlite', processes: 1, ...base, database_ms: null, ratio: null })
    const setups = [
      { engine: 'sqlite', processes: 1 },
      ...(postgres === null
        ? []
        : ([
            { engine: 'postgres', processes: 1 },
            { engine: 'postgres', processes: 4 },
          ] as const)),
    ] as const
    for (const setup of setups)
      for (const [load, figures] of await runOwn(own.file, folder, { ...setup, seconds, postgres }))
        found.push({
          name: `/${load.name}`,
          ...setup,
          ...figures,
          ratio: rounded(figures.per_second / base.per_second, 2),
        })
    return found
  } finally {
    echo.remove()
    own.remove()
    rmSync(folder, { recursive: true, force: true })
  }
}

function openWorld(shards: number): Promise<DiscordStandIn> {
  const people = Array.from({ length: PEOPLE }, (_, at) => `demo.person${at}`)
  const users = ['demo.lead', 'demo.crew', ...people]
  return startDiscord({
    identifyIntervalMs: 0,
    shards,
    users: users.map((name) => ({ name })),
    guilds: Array.from({ length: SERVERS }, (_, at) => ({
      name: `Demo Grounds ${at}`,
      owner: 'demo.lead',
      channels: [{ name: `field ${at}` }],
      members: users.map((user) => ({ user })),
    })),
  })
}

async function runEcho(file: string, folder: string, seconds: number) {
  const platform = await openWorld(1)
  try {
    const bot = await startBot(file, {
      DISCORD_TOKEN: platform.token,
      DISCORD_API: platform.api,
      ECHO_STORE: path.join(folder, 'echo-load.sqlite'),
    })
    try {
      return await keepAsking(platform, ECHO, seconds, [bot])
    } finally {
      await bot.stop()
    }
  } finally {
    await platform.stop()
  }
}

async function runOwn(
  file: string,
  folder: string,
  setup: {
    readonly engine: 'sqlite' | 'postgres'
    readonly processes: number
    readonly seconds: number
    readonly postgres: string | null
  },
) {
  const { engine, processes, seconds, postgres } = setup
  const platform = await openWorld(SERVERS)
  const ended: (() => unknown)[] = [() => platform.stop()]
  try {
    const place = `${folder}/${engine}-${processes}`
    let address: DatabaseAddress = { engine: 'sqlite', path: `${place}.sqlite` }
    if (engine === 'postgres') {
      const made = await databaseOn(postgres ?? '')
      ended.push(made.drop)
      address = made.address
    }
    const store = await openDatabase(address, 'live')
    for (let at = 0; at < SERVERS; at += 1) await seedCrew(store, platform, `Demo Grounds ${at}`)
    await store.close()
    const bots: RunningBot[] = []
    const each = SERVERS / processes
    for (let at = 0; at < processes; at += 1) {
      const bot = await startBot(file, {
        ...liveSettings(platform, { address, files: `${place}-files` }),
        SHARDS: `${at * each}-${(at + 1) * each - 1}`,
        SHARD_COUNT: String(SERVERS),
      })
      ended.push(() => bot.stop())
      bots.push(bot)
    }
    const found: (readonly [Load, Awaited<ReturnType<typeof keepAsking>>])[] = []
    for (const load of OWN) {
      const { database_ms, ...figures } = await keepAsking(platform, load, seconds, bots)
      found.push([load, { ...figures, database_ms: engine === 'postgres' ? database_ms : null }])
    }
    platform.assertClean()
    return found
  } finally {
    for (const end of ended.reverse()) await end()
  }
}

const sumOf = (values: readonly (number | null)[]): number | null =>
  values.reduce<number | null>((sum, one) => (sum === null || one === null ? null : sum + one), 0)

/** Answers a second, and how long the slowest of a hundred took. */
async function keepAsking(
  platform: DiscordStandIn,
  load: Load,
  seconds: number,
  bots: readonly RunningBot[],
) {
  const times: number[] = []
  const from = performance.now() + WARM_UP_MS
  const until = from + seconds * 1000
  let [asked, late] = [0, 0]
  const processorNow = () =>
    [sumOf(bots.map((bot) => bot.processorMs())), processorMsOfAll('postgres')] as const
  let before = processorNow()
  const measuring = setTimeout(() => {
    before = processorNow()
  }, WARM_UP_MS)
  const ask = async () => {
    while (performance.now() < until) {
      const at = asked++
      const server = at % SERVERS
      const began = performance.now()
      const answered = platform
        .slash({
          ...load,
          user: `demo.person${Math.floor(at / SERVERS) % PEOPLE}`,
          guild: `Demo Grounds ${server}`,
          channel: `field ${server}`,
        })
        .firstResponse(LATEST_MS)
        .then(
          () => true,
          () => false,
        )
      const isAnswered = await answered
      const now = performance.now()
      if (began < from || now > until) continue
      if (isAnswered) times.push(now - began)
      else late += 1
    }
  }
  await Promise.all(Array.from({ length: IN_FLIGHT }, ask))
  clearTimeout(measuring)
  const after = processorNow()
  const each = (at: 0 | 1) => {
    const [first, last] = [before[at], after[at]]
    return first === null || last === null ? null : rounded((last - first) / times.length, 2)
  }
  const sorted = times.toSorted((one, other) => one - other)
  return {
    per_second: rounded(times.length / seconds, 1),
    late,
    p99_ms: rounded(sorted[Math.ceil(sorted.length * 0.99) - 1] ?? Number.NaN, 1),
    cpu_ms: each(0),
    database_ms: each(1),
  }
}
