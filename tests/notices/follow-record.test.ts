import { expect, test } from 'vitest'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import { followRecord } from '#src/notices/follow-record.ts'
import { sendDue } from '#src/reminders/send-due.ts'
import { openRoom, type TestRoom } from '#tests/helpers/room.ts'
import { product } from '#tests/record/build.ts'
import { change } from './change.ts'
import { inCrew, logged, NOW_MS } from './logged.ts'

const sprayed = {
  products: [product({ name: 'Bellstrake 3 L', form: 'liquid', amount: { value: '64', unit: 'fl oz' } })],
}

/** Everything that has been planned, by nonce and time, and everything that stands in the stock. */
const planned = (room: TestRoom) =>
  inCrew(room, async ({ store, crew }, db) => ({
    messages: await db
      .selectFrom('deliveries')
      .select(['nonce', 'dueAtMs', 'sentAtMs'])
      .where('crewId', '=', crew.id)
      .orderBy('nonce')
      .execute(),
    stock: await store.stock.list(),
  }))

test('following a record again, as after a crash, changes nothing', async () => {
  const room = await openRoom()
  await logged(room, sprayed)
  const once = await planned(room)
  expect([once.messages.length > 5, once.stock.length]).toEqual([true, 1])
  await inCrew(room, (tools) => followRecord(1, tools), NOW_MS + 60_000)
  expect(await planned(room)).toEqual(once)
})

test('a void record leaves neither messages nor use of stock behind', async () => {
  const room = await openRoom()
  await logged(room, sprayed)
  await inCrew(room, async (tools) => {
    await change(tools, 1, { voids: true })
    await followRecord(1, tools)
    await followRecord(1, tools)
  })
  const { messages, stock } = await planned(room)
  expect(stock).toEqual([])
  expect(messages.filter(({ nonce }) => nonce.includes('notice'))).toEqual([])
})

test('what is for the crew goes to the channel that a lead has chosen, and what is for one person to them', async () => {
  const room = await openRoom()
  await inCrew(room, async ({ crew, updateCrew }) => {
    const notices = { ...crew.settings.notices, channel: 'chosen' }
    await updateCrew({ settings: { ...crew.settings, notices } })
  })
  await logged(room, { ...sprayed, forHire: true })
  await inCrew(room, ({ store, crew, person }) =>
    store.deliveries.plan(
      {
        personId: person.id,
        command: 'answers',
        nonce: `${crew.id}-own`,
        dueAtMs: NOW_MS,
        reply: reply('answer', asTyped('for one person'), { audience: 'person' }),
      },
      NOW_MS,
    ),
  )
  const channels = new Map<string, string | null>()
  await sendDue({
    database: room.bot.database,
    registry: room.bot.registry,
    nowMs: () => NOW_MS,
    chooseSafety: room.bot.chooseSafety,
    reportError: room.bot.reportError,
    deliver: async ({ channelKey }, answered) => {
      channels.set(answered.reply.title.say, channelKey)
    },
  })
  expect(channels.get('notices.first')).toBe('chosen')
  expect(channels.get('words.as-typed')).toBeNull()
})
