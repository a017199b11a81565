import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { bundleForNow } from '#src/bundle.mjs'
import { projectRoot } from '#src/project.ts'
import { openDatabase } from '#src/store/open.ts'
import type { DiscordStandIn } from '#tests/discord-loopback/index.ts'
import type { Fired } from '#tests/discord-loopback/interactions/fired.ts'
import { HAND_CAN, SITE } from '#tests/e2e-discord/seed.ts'
import { liveSettings } from '#tests/helpers/live-settings.ts'
import { buttonsOf } from '#tests/messengers/discord/seen.ts'
import { type RunningBot, startBot } from './bots.ts'
import { type Row, rounded, rowsOf } from './figures.ts'
import { plainScript } from './plain-script.ts'
import { MIX } from './requests.ts'
import { seedWorld, startWorld } from './world.ts'

const ECHO = 'echo'
const DURABLE = 'echo with one durable insert'
const ECHO_TYPING = 'echo, autocomplete'
const AGAINST: Readonly<Record<string, string>> = {
  [DURABLE]: ECHO,
  '/rate': DURABLE,
  '/mix': DURABLE,
  '/key step': DURABLE,
  '/log': DURABLE,
  '/log step': DURABLE,
}
const typingIn = (products: number) => `autocomplete, ${products.toLocaleString('en')} products`

const LOG = {
  product: 'Dunvarrow 2 SC',
  amount: '0.125 fl oz',
  rate: '0.25 fl oz/1000 ft2',
  used: '0.5 gal',
  site: SITE,
  area: 'front',
  coverage: 'spots',
  spots: 'other',
  ground: '500 ft2',
  weed: 'crabgrass',
  sprayer: HAND_CAN,
  start: '0:10',
  end: '0:20',
  wind: '5 mph',
  wind_from: 'NW',
  temperature: '72 F',
  humidity: '60',
  hands_washed: true,
  unusual: false,
}

/** Requests that one person makes: fewer than the flood gate lets anybody make at once. */
const ROUNDS_A_PERSON = 3
const WARM_UP = 20

export interface RoundTrip {
  readonly rows: readonly Row[]
  readonly memory: Readonly<Record<string, number | null>>
}

/**
 * Three bots in processes of their own on one stand-in each, asked in turn, one request at a time: from the moment the
 * platform sends an interaction until it has taken the first response.
 */
export async function measureRoundTrips(samples: number, products: number): Promise<RoundTrip> {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-bench-'))
  const warmUp = Math.min(WARM_UP, samples)
  const people = Array.from(
    { length: Math.ceil((samples + warmUp) / ROUNDS_A_PERSON) },
    (_, at) => `demo.person${at}`,
  )
  const ended: (() => unknown)[] = [() => rmSync(folder, { recursive: true, force: true })]
  try {
    const platforms = [await startWorld(people), await startWorld(people), await startWorld(people)] as const
    ended.push(...platforms.map((platform) => () => platform.stop()))
    const [plain, durable, own] = platforms
    const bundled = (entry: string) => bundleForNow(projectRoot(), entry)
    const files = [
      await bundled('tests/bench/echo-bot.ts'),
      await bundled('src/main.ts'),
      await plainScript('tests/bench/echo-bot.ts'),
    ] as const
    ended.push(...files.map((file) => () => file.remove()))
    const database = path.join(folder, 'crew.sqlite')
    const store = await openDatabase({ engine: 'sqlite', path: database }, 'live')
    await seedWorld(store, own, products)
    await store.close()

    const reach = (platform: DiscordStandIn) => ({ DISCORD_TOKEN: platform.token, DISCORD_API: platform.api })
    const start = [
      () => startBot(files[0].file, reach(plain)),
      () => startBot(files[0].file, { ...reach(durable), ECHO_STORE: path.join(folder, 'echo.sqlite') }),
      () =>
        startBot(files[1].file, {
          ...liveSettings(own, {
            address: { engine: 'sqlite', path: database },
            files: path.join(folder, 'files'),
          }),
        }),
    ] as const
    const starts =
      samples < WARM_UP
        ? new Map<string, number[]>()
        : await startRepeatedly({
            [PLAIN_START]: () => startBot(files[2].file, reach(plain)),
            [BARE_START]: start[0],
            [START]: start[2],
          })
    const bots: RunningBot[] = []
    for (const one of start) {
      const bot = await one()
      ended.push(() => bot.stop())
      bots.push(bot)
    }
    const idle = bots.map((bot) => bot.memoryMb())
    await assertAnswered(own)
    const times = new Map<string, number[]>()
    for (let round = 0; round < warmUp + samples; round += 1) {
      const user = people[Math.floor(round / ROUNDS_A_PERSON)] ?? ''
      const taken = await oneRound({ plain, durable, own, products }, user, round)
      if (round >= warmUp) for (const [name, ms] of taken) times.set(name, [...(times.get(name) ?? []), ms])
    }
    for (const platform of platforms) platform.assertClean()
    const rows = rowsOf(new Map([...starts, ...times]), {
      [START]: BARE_START,
      ...AGAINST,
      [typingIn(products)]: ECHO_TYPING,
    })
    return { rows, memory: memoryOf(idle, bots) }
  } finally {
    for (const end of ended.reverse()) await end()
  }
}

/** A refusal is quicker than an answer: what is measured must be one. */
async function assertAnswered(own: DiscordStandIn): Promise<void> {
  const asked = own.slash({ name: 'mix', user: 'demo.crew', channel: 'field', options: MIX })
  const shown = JSON.stringify(await asked.message())
  if (!shown.includes('✓')) throw new Error(`The mix that is to be measured is no answer: ${shown}`)
}

const STARTS = 5

const BARE_START = 'start to ready, bare client'
const PLAIN_START = 'start to ready, bare client from its packages'
const START = 'start to ready'

/** Start to ready, several times in turn; left out of a run that is too short to say anything. */
async function startRepeatedly(start: Readonly<Record<string, () => Promise<RunningBot>>>, count = STARTS) {
  const times = new Map(Object.keys(start).map((name) => [name, [] as number[]]))
  for (let at = 0; at <= count; at += 1)
    for (const [name, one] of Object.entries(start)) {
      const bot = await one()
      // The first keeps what the engine has made of the text.
      if (at > 0) times.get(name)?.push(bot.readyMs)
      await bot.stop()
    }
  return times
}

function memoryOf(idle: readonly (number | null)[], bots: readonly RunningBot[]) {
  const after = bots.map((bot) => bot.memoryMb())
  const share = (values: readonly (number | null)[]) =>
    values[0] == null || values[2] == null ? null : rounded(values[2] / values[0], 2)
  return {
    bare_ready_mb: idle[0] ?? null,
    ready_mb: idle[2] ?? null,
    ready_ratio: share(idle),
    bare_after_mb: after[0] ?? null,
    durable_after_mb: after[1] ?? null,
    after_mb: after[2] ?? null,
    after_ratio: share(after),
  }
}

interface Stage {
  readonly plain: DiscordStandIn
  readonly durable: DiscordStandIn
  readonly own: DiscordStandIn
  readonly products: number
}

/** Each request once. What one leaves running, a picture on its way, is waited for before the next. */
async function oneRound({ plain, durable, own, products }: Stage, user: string, round: number) {
  const taken = new Map<string, number>()
  const time = async (name: string, fire: () => Fired): Promise<Fired> => {
    const began = performance.now()
    const fired = fire()
    await fired.firstResponse()
    taken.set(name, performance.now() - began)
    return fired
  }
  const who = { user, channel: 'field' }
  const echo = { name: 'echo', ...who, options: { text: `Half the water, then the product: ${round}` } }
  await time(ECHO, () => plain.slash(echo))
  await time(ECHO_TYPING, () => plain.autocomplete({ ...echo, focused: 'text' }))
  await time(DURABLE, () => durable.slash(echo))
  const rate = { amount: '3 pt/acre', to: 'fl oz/1000 ft2' }
  await time('/rate', () => own.slash({ name: 'rate', ...who, options: rate }))
  await time('/mix', () => own.slash({ name: 'mix', ...who, options: MIX }))
  await keyStep(own, who, time)
  await logSteps(own, who, time)
  const typed = ['lindh', 'morv', 'kelmgal 3', 'drovholt 41 ec', 'hesk'][round % 5] ?? ''
  const typing = { name: 'mix', ...who, focused: 'product', options: { product: typed } }
  await time(typingIn(products), () => own.autocomplete(typing))
  return taken
}

type Time = (name: string, fire: () => Fired) => Promise<Fired>
type Who = { readonly user: string; readonly channel: string }

/** Every question comes with its picture, after the words. */
const pictureOf = (fired: Fired) => fired.edit(1, 3000).catch(() => null)

async function keyStep(own: DiscordStandIn, who: Who, time: Time): Promise<void> {
  const asked = own.slash({ name: 'key', ...who, options: { turf: 'tall fescue' } })
  const message = await asked.message()
  await pictureOf(asked)
  const customId = buttonsOf(message)[0]?.customId ?? ''
  await pictureOf(await time('/key step', () => own.press({ message, customId, user: who.user })))
}

async function logSteps(own: DiscordStandIn, who: Who, time: Time): Promise<void> {
  const logged = await time('/log', () => own.slash({ name: 'log', ...who, options: LOG }))
  const message = await logged.message()
  const fill = buttonsOf(message).find(({ label }) => label === 'Fill it in')?.customId ?? ''
  const form = own.press({ message, customId: fill, user: who.user })
  const asked = JSON.stringify(await form.modal())
  const known = {
    'c.area_basis': ['measured'],
    't.rain': '48 / 6',
    't.customer_name': 'Demo Customer',
    'c.ppe': ['yes'],
  }
  // What is asked depends on what the last record of the place has said.
  const fields = Object.fromEntries(Object.entries(known).filter(([id]) => asked.includes(`"${id}"`)))
  await time('/log step', () => own.submitModal({ from: form, fields }))
}
