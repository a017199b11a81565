import { createServer } from 'node:net'
import { expect, onTestFinished, test } from 'vitest'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { openDatabase } from '#src/store/open.ts'
import { readOnly } from '#src/store/transaction.ts'
import { freePort, urlOf } from '#tests/helpers/live-settings.ts'
import { buttonIn, textOf } from '#tests/messengers/discord/seen.ts'
import { soon } from './crew.ts'
import { addressOnDisk, type Machine, startMachine } from './process.ts'
import { HAND_CAN } from './seed.ts'

const crew = { user: 'demo.crew', channel: 'field' }
const mix = { name: 'mix', ...crew, options: { rate: '1 fl oz/1000 ft2', tank: '2 gal', sprayer: HAND_CAN } }
const POUR = `Poured into ${HAND_CAN}`
const REGISTER = { method: 'PUT', route: '/applications/{application_id}/commands' }

/** Looks into the store from outside, while the bot runs or after it has ended. */
async function look<T>({ address, platform }: Machine, see: (store: CrewStore) => Promise<T>): Promise<T> {
  const store = await openDatabase(address, 'live')
  try {
    return await readOnly(store, async (db) => {
      const found = await findCrew(db, crewKeyOf(platform.world.guild(undefined).id))
      return see(crewStore(db, found?.id ?? 0))
    })
  } finally {
    await store.close()
  }
}

const pours = (machine: Machine) =>
  look(machine, async (store) => {
    const [sprayer] = await store.sprayers.list()
    const events = await store.sprayers.listEvents(sprayer?.id ?? 0, 10)
    return events.filter(({ kind }) => kind === 'poured').length
  })
const answers = (machine: Machine) =>
  look(machine, async (store) => (await store.turns.list({ limit: 100 })).length)

test('it registers once, answers, is killed in the middle, and goes on where it was', async () => {
  const machine = await startMachine()
  const { platform } = machine
  const port = String(await freePort())
  const first = machine.start({ PORT: port })
  await first.ready()
  expect(platform.requestsTo(REGISTER)).toHaveLength(1)
  const health = await fetch(`http://127.0.0.1:${port}/health`)
  expect(health.status).toBe(200)
  expect(await health.json()).toMatchObject({ ok: true, ended: null, shards: [{ isReady: true }] })
  expect((await fetch(`http://127.0.0.1:${port}/`)).status).toBe(404)

  const message = await platform.slash(mix).message()
  expect(textOf(message)).toContain('of the product')

  // Dispatches that the client cannot even build its objects from end nothing. Their ids are of moments before, and
  // unknown to the platform: what the bot answers all the same is refused.
  const frame = structuredClone(platform.slash(mix).frame) as unknown as Record<string, unknown>
  for (const [at, missing] of ['entitlements', 'data', 'token', 'member', 'channel'].entries()) {
    const broken = {
      ...frame,
      id: String(BigInt(String(frame.id)) - (BigInt(at + 1) << 22n)),
      [missing]: undefined,
    }
    platform.gateway.dispatch('INTERACTION_CREATE' as never, broken, undefined)
  }
  platform.gateway.sendRaw('{"op":0,"t":"INTERACTION_CREATE","s":')
  expect(textOf(await platform.slash(mix).message())).toContain('of the product')

  // Killed when the press is written and its answer is on the way.
  const before = await answers(machine)
  const press = platform.press({ message, customId: buttonIn(message, POUR) })
  const itsAnswer = ({ path }: { path: string }) => path.includes(`/${press.id}/`)
  platform.faults.delay(itsAnswer, 30_000, { when: 'before' })
  await soon(() => expect(platform.requestsTo(itsAnswer)).toHaveLength(1))
  expect(await pours(machine)).toBe(1)
  first.child.kill('SIGKILL')
  expect(await first.ended()).toBe('SIGKILL')
  expect(press.response).toBeUndefined()

  const second = machine.start()
  await second.ready()
  expect(platform.requestsTo(REGISTER)).toHaveLength(1)
  // The button still stands there and is pressed once more: what was kept is shown.
  const again = await platform.press({ message, customId: buttonIn(message, POUR) }).message()
  expect(textOf(again)).toContain(`Noted: 2 gal of 1 fl oz/1000 ft2 in ${HAND_CAN}`)
  expect(await pours(machine)).toBe(1)
  expect(await answers(machine)).toBe(before + 1)
  second.child.kill('SIGTERM')
  expect(await second.ended()).toBe(0)
}, 150_000)

test('SIGTERM finishes what is in flight, turns newcomers away, and ends with 0', async () => {
  const machine = await startMachine()
  const { platform } = machine
  const bot = machine.start()
  await bot.ready()
  platform.faults.delay({ method: 'PATCH', route: '/messages/@original' }, 1200, { when: 'before' })
  const card = platform.slash({ name: 'site show', ...crew, options: { site: 'Invented Row 5' } })
  await card.firstResponse()
  bot.child.kill('SIGTERM')
  await soon(() => expect(bot.output()).toContain('"msg":"the door is shut"'))
  const late = await platform.slash(mix).message()
  expect(textOf(late)).toContain('Restarting: nothing was written.')
  expect(await bot.ended()).toBe(0)
  expect(card.edits).toHaveLength(1)
  expect(await answers(machine)).toBe(1)
}, 90_000)

test('a gateway that is closed for good ends it with an error', async () => {
  const machine = await startMachine()
  const bot = machine.start()
  await bot.ready()
  machine.platform.close(4014)
  expect(await bot.ended()).toBe(1)
  expect(bot.output()).toContain('the connection has ended for good')
}, 90_000)

const STOPS: readonly {
  readonly what: string
  readonly settings: () => Promise<Record<string, string>>
  readonly says: string | RegExp
}[] = [
  {
    what: 'a token that the platform refuses',
    settings: async () => ({ DISCORD_TOKEN: 'nobody.knows.this' }),
    says: 'DISCORD_TOKEN: Discord refuses it.',
  },
  {
    what: 'settings that cannot be read, all of them at once',
    settings: async () => ({ PORT: '70000', CREW_TIMEZONE: 'Mars/North', DATABASE_URL: 'crew.db' }),
    says: /PORT[\s\S]*CREW_TIMEZONE[\s\S]*DATABASE_URL|DATABASE_URL[\s\S]*PORT[\s\S]*CREW_TIMEZONE/,
  },
  {
    what: 'a port that is taken',
    settings: async () => {
      const server = createServer()
      await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
      onTestFinished(() => new Promise<void>((done) => server.close(() => done())))
      const address = server.address()
      return { PORT: String(typeof address === 'object' ? address?.port : '') }
    },
    says: /^PORT: \d+ is taken\. Choose another for the health page\.$/m,
  },
]

test.each(STOPS)(
  '$what: it ends with 1 and a sentence',
  async ({ settings, says }) => {
    const machine = await startMachine()
    const bot = machine.start(await settings())
    expect(await bot.ended()).toBe(1)
    expect(bot.output()).toMatch(says)
    expect(bot.output()).not.toContain('    at ')
  },
  60_000,
)

test('a practice database is not opened for a live crew', async () => {
  const machine = await startMachine()
  const practice = await addressOnDisk(machine.folder, 'practice.sqlite')
  await (await openDatabase(practice, 'practice')).close()
  const bot = machine.start({ DATABASE_URL: urlOf(practice) })
  expect(await bot.ended()).toBe(1)
  expect(bot.output()).toContain('practice')
  expect(bot.output()).not.toContain('    at ')
}, 60_000)
