import { Client, type ClientOptions, Events, type Interaction } from 'discord.js'
import { onTestFinished } from 'vitest'
import { type DiscordStandIn, type StandInSettings, startDiscord } from '../index.ts'

export type Handler = (interaction: Interaction) => unknown

export interface TestBot {
  discord: DiscordStandIn
  client: Client<true>
  /** What the client reported as errors, handlers' rejections included. */
  errors: unknown[]
}

/** The real client, logged in to a stand-in; a throttler that never waits keeps re-identifies quick. */
export async function connect(
  discord: DiscordStandIn,
  handler: Handler,
  options: Partial<ClientOptions> = {},
) {
  const errors: unknown[] = []
  const client = new Client({
    intents: [],
    rest: { api: discord.api },
    waitGuildTimeout: 0,
    ws: { buildIdentifyThrottler: async () => ({ waitForIdentify: async () => {} }) },
    ...options,
  })
  client.on(Events.Error, (error) => errors.push(error))
  client.on(Events.InteractionCreate, async (interaction) => {
    try {
      await handler(interaction)
    } catch (error) {
      errors.push(error)
    }
  })
  const ready = new Promise<Client<true>>((resolve) => client.once(Events.ClientReady, resolve))
  await client.login(discord.token)
  return { client: await ready, errors }
}

/** Starts a stand-in and a bot on it. Commands need not be registered unless the test says so. */
export type StartBot = (
  handler: Handler,
  settings?: StandInSettings,
  options?: Partial<ClientOptions>,
) => Promise<TestBot>

/** Bots that end with a test; tests that run side by side must give their own `onTestFinished`. */
export function endingWith(ending: typeof onTestFinished): StartBot {
  return async (handler, settings = {}, options = {}) => {
    const discord = await startDiscord({ unregistered: 'guess', identifyIntervalMs: 0, ...settings })
    const { client, errors } = await connect(discord, handler, options)
    ending(async () => {
      await client.destroy()
      await discord.stop()
    })
    return { discord, client, errors }
  }
}

/** As above, for tests that run one after another. */
export const startBot: StartBot = endingWith(onTestFinished)

/** Code of the platform's error that a rejected call carries. */
export const codeOf = async (call: Promise<unknown>): Promise<unknown> =>
  call.then(
    () => 'accepted',
    (error: { code?: unknown }) => error.code,
  )
