import { expect, test } from 'vitest'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { fitNonce } from '#src/messengers/discord/deliver.ts'
import { DeliveryFailed } from '#src/messengers/discord/delivery-failed.ts'
import { startRig } from './rig.ts'
import { buttonsOf, textOf } from './seen.ts'

const answered = (parts: Parameters<typeof reply>[2] = {}): Answered => ({
  reply: reply('question', say('toy.ask'), {
    audience: 'person',
    choices: [{ label: say('toy.one'), to: { step: 'chosen', value: 'one' } }],
    ...parts,
  }),
  number: 7,
  turnId: 7,
  language: { person: 'en', crew: 'en' },
  zone: 'America/Chicago',
  replayed: false,
  demo: false,
})

async function startDelivery(world = {}) {
  const rig = await startRig({ world })
  const guild = rig.platform.world.guild(undefined)
  const field = rig.platform.world.channel(guild, 'field').id
  const address = { crewKey: crewKeyOf(guild.id), personKey: rig.platform.world.user('demo.crew').id }
  return { ...rig, address, field }
}

const SEND = { method: 'POST', route: '/channels/{channel_id}/messages' }

test('a reminder comes as a direct message whose buttons carry its crew', async () => {
  const { platform, discord, address } = await startDelivery()
  expect(await discord.deliver(address, answered(), 'plot-7')).toMatchObject({ way: 'direct' })
  const [message] = platform.directMessages('demo.crew')
  expect(textOf(message ?? {})).toContain('# Which one?')
  expect(buttonsOf(message ?? {})[0]?.customId).toBe(`s1.7.1!q@${address.crewKey.slice('discord:'.length)}`)
  platform.assertClean()
})

test.each([
  ['cut after it was carried out', (platform: Faults) => platform.drop(SEND)],
  ['answered with trouble four times', (platform: Faults) => platform.serverError(SEND, { times: 4 })],
  ['told to come later', (platform: Faults) => platform.tooMany(SEND, { retryAfterS: 0.2 })],
])('a send that is %s posts once', async (_, trouble) => {
  const { platform, discord, address } = await startDelivery()
  trouble(platform.faults)
  await discord.deliver(address, answered(), 'plot-7')
  expect(platform.directMessages('demo.crew')).toHaveLength(1)
})
type Faults = Awaited<ReturnType<typeof startDelivery>>['platform']['faults']

test('one nonce posts once, however often it is sent', async () => {
  const { platform, discord, address } = await startDelivery()
  await discord.deliver(address, answered(), 'reminder 12 of plot 4711')
  await discord.deliver(address, answered(), 'reminder 12 of plot 4711')
  await discord.deliver(address, answered(), 'reminder 13 of plot 4711')
  expect(platform.directMessages('demo.crew')).toHaveLength(2)
})

test('who takes no direct messages is called in the channel, and nobody else is', async () => {
  const { platform, discord, address, field } = await startDelivery()
  platform.world.user('demo.crew').dmsClosed = true
  const sent = await discord.deliver({ ...address, channelKey: field }, answered(), 'plot-7')
  expect(sent).toMatchObject({ way: 'channel', channelId: field })
  const [message] = platform.messagesIn('field')
  expect(textOf(message ?? {})).toContain(`<@${address.personKey}>`)
  expect(message?.mentions.map((user) => user.id)).toEqual([address.personKey])
  expect(platform.violations).toEqual([])
})

test('who takes no direct messages and was never heard in a channel cannot be reached', async () => {
  const { platform, discord, address } = await startDelivery()
  platform.world.user('demo.crew').dmsClosed = true
  const failed = await discord.deliver(address, answered(), 'plot-7').catch((error: unknown) => error)
  expect(failed).toBeInstanceOf(DeliveryFailed)
  expect(failed).toMatchObject({ trouble: 'no-direct-message', again: false })
  expect(platform.messagesIn('field')).toEqual([])
})

test('what is for the crew goes to the channel, with its picture', async () => {
  const { platform, discord, address, field } = await startDelivery()
  const files = [{ name: 'a.png', alt: say('toy.alt'), from: { picture: 'toy', data: {} } }]
  await discord.deliver({ ...address, channelKey: field }, answered({ audience: 'crew', files }), 'plot-7')
  expect(platform.messagesIn('field')[0]?.attachments).toMatchObject([{ filename: '1_a.png' }])
  platform.assertClean()
})

test('a platform that stays away is told of, and may be tried again', async () => {
  const { platform, discord, address } = await startDelivery()
  platform.faults.serverError(SEND, { times: 100 })
  const failed = await discord.deliver(address, answered(), 'plot-7').catch((error: unknown) => error)
  expect(failed).toMatchObject({ name: 'DeliveryFailed', trouble: 'later', again: true })
})

test('a nonce keeps to 25 characters and stays itself', () => {
  expect(fitNonce('plot-7')).toBe('plot-7')
  expect(fitNonce('x'.repeat(60))).toHaveLength(25)
  expect(fitNonce('x'.repeat(60))).toBe(fitNonce('x'.repeat(60)))
  expect(fitNonce('x'.repeat(60))).not.toBe(fitNonce('x'.repeat(61)))
})
