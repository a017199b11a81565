import { RESTEvents } from 'discord.js'
import { expect, type onTestFinished, test } from 'vitest'
import { codeOf, endingWith } from './testing/bot.ts'

async function startSender(ending: typeof onTestFinished, rest: object = {}) {
  const bot = await endingWith(ending)(() => {})
  Object.assign(bot.client.rest.options, rest)
  const { id } = bot.discord.world.channel(bot.discord.world.guild(undefined), 'field')
  const send = (body: object = {}) =>
    bot.client.rest.post(`/channels/${id}/messages`, { body: { content: 'recheck', ...body } })
  return { ...bot, send }
}

const SEND = { method: 'POST', route: '/channels/{channel_id}/messages' }

test.concurrent('a 429 with its header is waited out', async ({ onTestFinished }) => {
  const { discord, send } = await startSender(onTestFinished)
  discord.faults.tooMany(SEND, { retryAfterS: 0.2 })
  const startedAtMs = Date.now()
  await send()
  expect(Date.now() - startedAtMs).toBeGreaterThanOrEqual(200)
  expect(discord.requestsTo(SEND).map((each) => each.status)).toEqual([429, 200])
})

test.concurrent('a global 429 holds other routes too', async ({ onTestFinished }) => {
  const { discord, client, send } = await startSender(onTestFinished)
  discord.faults.tooMany(SEND, { retryAfterS: 0.3, global: true })
  const sent = send()
  await discord.nextRequest(SEND)
  await new Promise((resolve) => setTimeout(resolve, 50))
  const startedAtMs = Date.now()
  await client.rest.get('/users/@me')
  expect(Date.now() - startedAtMs).toBeGreaterThanOrEqual(200)
  await sent
})

test.concurrent('a bucket announces itself, and the client keeps within it', async ({ onTestFinished }) => {
  const { discord, send } = await startSender(onTestFinished)
  discord.limits.bucket(SEND, { limit: 2, perMs: 300 })
  await send()
  const startedAtMs = Date.now()
  await Promise.all([send(), send(), send()])
  expect(Date.now() - startedAtMs).toBeGreaterThanOrEqual(250)
  expect(discord.requestsTo(SEND).map((each) => each.status)).toEqual([200, 200, 200, 200])
})

test.concurrent('a client that ignores its bucket gets a 429', async ({ onTestFinished }) => {
  const { discord } = await startSender(onTestFinished)
  const { id } = discord.world.channel(discord.world.guild(undefined), 'field')
  discord.limits.bucket(SEND, { limit: 1, perMs: 1000 })
  const post = () =>
    fetch(`${discord.api}/v10/channels/${id}/messages`, {
      method: 'POST',
      headers: { authorization: `Bot ${discord.token}`, 'content-type': 'application/json' },
      body: JSON.stringify({ content: 'x' }),
    })
  expect((await post()).headers.get('x-ratelimit-remaining')).toBe('0')
  const second = await post()
  expect(second.status).toBe(429)
  expect(Number(second.headers.get('retry-after'))).toBeGreaterThan(0)
  expect(await second.json()).toMatchObject({ global: false, message: 'You are being rate limited.' })
})

test.concurrent('server errors are tried again, four times in all', async ({ onTestFinished }) => {
  const { discord, send } = await startSender(onTestFinished)
  discord.faults.serverError(SEND, { times: 4 })
  expect(await send().catch((error: { status: number }) => error.status)).toBe(500)
  expect(discord.requestsTo(SEND)).toHaveLength(4)
  await send()
})

test.concurrent('carried out and then cut: the same nonce sent again makes no second message', async ({
  onTestFinished,
}) => {
  const { discord, send } = await startSender(onTestFinished)
  const once = { nonce: 'r-1', enforce_nonce: true }
  discord.faults.drop(SEND)
  expect(await codeOf(send(once))).toBe('UND_ERR_SOCKET')
  await send(once)
  expect(discord.messagesIn('field')).toHaveLength(1)
})

test.concurrent('cut before it was carried out leaves no trace', async ({ onTestFinished }) => {
  const { discord, send } = await startSender(onTestFinished)
  discord.faults.drop(SEND, { when: 'before' })
  await send().catch(() => {})
  expect(discord.messagesIn('field')).toHaveLength(0)
  expect(discord.requestsTo(SEND).map((each) => each.status)).toEqual([0])
})

test.concurrent('a slow answer is carried out once and asked for twice', async ({ onTestFinished }) => {
  const { discord, send } = await startSender(onTestFinished, { timeout: 150 })
  discord.faults.delay(SEND, 300)
  await send({ nonce: 'r-2', enforce_nonce: true })
  expect(discord.requestsTo(SEND)).toHaveLength(2)
  expect(discord.messagesIn('field')).toHaveLength(1)
})

test.concurrent('one 401 takes the token from the client', async ({ onTestFinished }) => {
  const { discord, send } = await startSender(onTestFinished)
  discord.faults.unauthorized(SEND)
  expect(await send().catch((error: { status: number }) => error.status)).toBe(401)
  await expect(send()).rejects.toThrow('Expected token')
  expect(discord.counts.invalidRequests).toBe(1)
})

test.concurrent('a fault can be called off, and decide by itself', async ({ onTestFinished }) => {
  const { discord, send } = await startSender(onTestFinished)
  const off = discord.faults.serverError(SEND, { times: 9 })
  off()
  await send()
  discord.faults.plan(
    SEND,
    ({ body }) => {
      const { content } = body as { content: string }
      return content === 'bad' ? { kind: 'drop', when: 'before' } : { kind: 'pass' }
    },
    { times: 2 },
  )
  await send({ content: 'good' })
  expect(await codeOf(send({ content: 'bad' }))).toBe('UND_ERR_SOCKET')
})

test.concurrent('a global limit of so many a second can be set', async ({ onTestFinished }) => {
  const { discord, client } = await startSender(onTestFinished)
  discord.limits.global(1)
  const limited: boolean[] = []
  client.rest.on(RESTEvents.Response, (_request, response) => limited.push(response.status === 429))
  await Promise.all([client.rest.get('/users/@me'), client.rest.get('/applications/@me')])
  expect(limited).toContain(true)
})

test.concurrent('unknown routes are listed and spoil the end of a test', async ({ onTestFinished }) => {
  const { discord, client } = await startSender(onTestFinished)
  expect(await client.rest.get('/nowhere').catch((error: { status: number }) => error.status)).toBe(404)
  expect(discord.unexpected).toEqual(['GET /nowhere'])
  expect(() => discord.assertClean()).toThrow('GET /nowhere: no such route')
})
