import { expect, test } from 'vitest'
import { deliverWith } from '#src/live.ts'
import { DeliveryFailed } from '#src/messengers/discord/delivery-failed.ts'
import { Unreachable } from '#src/reminders/deliver.ts'

const address = { crewKey: 'discord:1', personKey: '2', channelKey: null }
const message = {} as Parameters<ReturnType<typeof deliverWith>>[1]

const failing = (trouble: DeliveryFailed['trouble'], again: boolean) =>
  deliverWith(() => Promise.reject(new DeliveryFailed(trouble, again, new Error('cause'))))(
    address,
    message,
    'n',
  )

test.each(['no-direct-message', 'no-access', 'gone', 'refused'] as const)(
  'a person whom nothing reaches (%s) is put off',
  async (trouble) => {
    await expect(failing(trouble, false)).rejects.toThrow(Unreachable)
  },
)

test('what may work later is tried again soon', async () => {
  await expect(failing('later', true)).rejects.toThrow(DeliveryFailed)
})

test('a refused token says nothing about the person', async () => {
  await expect(failing('token-refused', false)).rejects.toThrow(DeliveryFailed)
})

test('what was taken is done', async () => {
  const sent = { messageId: '1', channelId: '2', way: 'direct' } as const
  await expect(deliverWith(async () => sent)(address, message, 'n')).resolves.toBeUndefined()
})
