import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { expect, onTestFinished } from 'vitest'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { type Database, type DatabaseAddress, openDatabase } from '#src/store/open.ts'
import { readOnly, write } from '#src/store/transaction.ts'
import { type DiscordStandIn, type StandInSettings, startDiscord } from '#tests/discord-loopback/index.ts'
import type { Fired } from '#tests/discord-loopback/interactions/fired.ts'
import { HAND_CAN, seedCrew } from '#tests/e2e-discord/seed.ts'
import { liveSettings } from '#tests/helpers/live-settings.ts'
import { buttonIn, buttonsOf, textOf } from '#tests/messengers/discord/seen.ts'
import { type Supervisor, startSupervisor } from '#tests/ordeal/supervisor.ts'

export const SHARDS = 6
/** The shards of each process. */
export const PARTS = ['0-1', '2,3', '4-5'] as const
const POUR = `Poured into ${HAND_CAN}`
export const guildName = (shard: number) => `Demo Grounds ${shard}`

/** A request of somebody in one of the servers. */
export interface Asked {
  readonly shard: number
  readonly fired: Fired
  /** The message whose button was pressed, for a pouring. */
  readonly poured: string | null
}

export interface Fleet {
  readonly platform: DiscordStandIn
  readonly store: Database
  readonly processes: readonly Supervisor[]
  readonly asked: readonly Asked[]
  /** Asks something in the server of a shard. */
  ask(shard: number): Fired
  /** Presses the button below an answer that came before, once or twice at once. */
  pour(shard: number): void
  /** A message that is due at once, for somebody of that server. */
  remind(shard: number): Promise<void>
  /** How many messages came of each reminder, and how many of these say that they may be a copy. */
  reminders(): Promise<ReadonlyMap<string, { readonly seen: number; readonly marked: number }>>
  /** Waits until every reminder is marked as sent. */
  settled(withinMs: number): Promise<void>
  logOf(part: number): string
}

/** One server on each shard, a crew in each, one PostgreSQL, and three processes with two shards each. */
export async function startFleet(address: DatabaseAddress, settings: StandInSettings = {}): Promise<Fleet> {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-shards-'))
  const users = [{ name: 'demo.lead' }, { name: 'demo.crew' }]
  const platform = await startDiscord({
    shards: SHARDS,
    identifyIntervalMs: 0,
    heartbeatIntervalMs: 1500,
    users,
    guilds: Array.from({ length: SHARDS }, (_, shard) => ({
      name: guildName(shard),
      owner: 'demo.lead',
      channels: [{ name: `field ${shard}` }],
      members: users.map(({ name }) => ({ user: name })),
    })),
    ...settings,
  })
  const store = await openDatabase(address, 'live')
  const shardOfGuild = (name: string) =>
    Number((BigInt(platform.world.guild(name).id) >> 22n) % BigInt(SHARDS))
  const names = new Map(
    Array.from({ length: SHARDS }, (_, at) => [shardOfGuild(guildName(at)), guildName(at)]),
  )
  expect(names.size, 'each server is on a shard of its own').toBe(SHARDS)
  for (const name of names.values()) await seedCrew(store, platform, name)
  const logs = PARTS.map((_, part) => path.join(folder, `bot-${part}.log`))
  const processes: Supervisor[] = []
  onTestFinished(async () => {
    for (const one of processes) await one.stop()
    await store.close()
    await platform.stop()
    rmSync(folder, { recursive: true, force: true })
  })
  for (const [part, shards] of PARTS.entries())
    processes.push(
      await startSupervisor({
        logFile: logs[part] ?? '',
        environment: {
          ...liveSettings(platform, { address, files: path.join(folder, 'files') }),
          SHARDS: shards,
          SHARD_COUNT: String(SHARDS),
          IDENTIFY_GAP_MS: String((settings.identifyIntervalMs ?? 0) * 1.1),
          LOG_LEVEL: 'debug',
        },
      }),
    )
  await Promise.all(processes.map((one) => one.ready()))

  const asked: Asked[] = []
  const placeOf = (shard: number) => ({
    user: 'demo.crew',
    guild: names.get(shard) ?? '',
    channel: `field ${(names.get(shard) ?? '').split(' ').at(-1)}`,
  })
  const planned: string[] = []
  const wordsOf = (nonce: string) => `Trial message ${nonce.replace(/\D/g, '')} of the fleet`
  return {
    platform,
    store,
    processes,
    asked,
    ask(shard) {
      const options = { rate: '1 fl oz/1000 ft2', tank: '2 gal', sprayer: HAND_CAN }
      const fired = platform.slash({ name: 'mix', ...placeOf(shard), options })
      asked.push({ shard, fired, poured: null })
      return fired
    },
    pour(shard) {
      const message = asked
        .filter((one) => one.shard === shard && one.poured === null)
        .map(({ fired }) => fired.record.original?.object)
        .findLast(
          (one) =>
            one !== undefined && buttonsOf(one).some(({ label, disabled }) => label === POUR && !disabled),
        )
      if (message === undefined) return
      for (let press = 0; press < 2; press += 1)
        asked.push({
          shard,
          fired: platform.press({ message, customId: buttonIn(message, POUR), user: 'demo.crew' }),
          poured: message.id,
        })
    },
    async remind(shard) {
      const nonce = `fleet-${planned.length + 1}`
      await write(store, async (db) => {
        const crew = await findCrew(db, crewKeyOf(platform.world.guild(names.get(shard)).id))
        const { people, deliveries } = crewStore(db, crew?.id ?? 0)
        const person = await people.find(platform.world.user('demo.crew').id)
        const said = reply('answer', asTyped(wordsOf(nonce)), {
          safety: { about: ['drift'] },
          audience: 'person',
        })
        await deliveries.plan(
          { personId: person?.id ?? 0, command: 'rate', reply: said, nonce, dueAtMs: Date.now() },
          Date.now(),
        )
      })
      planned.push(nonce)
    },
    async reminders() {
      const texts = platform.directMessages('demo.crew').map(textOf)
      return new Map(
        planned.map((nonce) => {
          const own = texts.filter((text) => text.includes(wordsOf(nonce)))
          return [
            nonce,
            {
              seen: own.length,
              marked: own.filter((text) => text.includes('You may have got this already')).length,
            },
          ]
        }),
      )
    },
    async settled(withinMs) {
      const until = performance.now() + withinMs
      for (;;) {
        const open = await readOnly(store, (db) =>
          db.selectFrom('deliveries').select('id').where('sentAtMs', 'is', null).execute(),
        )
        if (open.length === 0) return
        if (performance.now() > until) throw new Error(`${open.length} messages have not left`)
        await new Promise((done) => setTimeout(done, 100))
      }
    },
    logOf: (part) => readFileSync(logs[part] ?? '', 'utf8'),
  }
}
