import { InteractionResponseType as Kind } from 'discord.js'
import { expect, test } from 'vitest'
import { startRig } from './rig.ts'
import { buttonIn, buttonsOf, isPrivate, textOf } from './seen.ts'

const crew = { user: 'demo.crew', channel: 'field' }
const photo = {
  name: 'weed.png',
  bytes: Buffer.from(
    'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
    'base64',
  ),
  contentType: 'image/png',
}

test('a command opens its form at once, with the safety line above the fields', async () => {
  const { platform } = await startRig()
  const modal = await platform.slash({ name: 'note add', ...crew }).modal()
  expect(modal).toMatchObject({
    title: 'A short form',
    components: [
      { type: 10, content: expect.stringContaining('> Before the cap comes off') },
      { type: 18, label: 'Amount', component: { type: 4, custom_id: 't.amount', required: true } },
      {
        type: 18,
        label: 'Turf',
        component: { type: 3, custom_id: 'c.turf', options: [{ value: 'a' }, { value: 'b' }] },
      },
      {
        type: 18,
        label: 'Photo',
        component: { type: 19, custom_id: 'f.photo', required: false, min_values: 0 },
      },
    ],
  })
  platform.assertClean()
})

test('wrong input is answered with what is wrong and "Correct it", which opens the form filled in', async () => {
  const { platform, turns } = await startRig()
  const opened = platform.slash({ name: 'note add', ...crew })
  await opened.modal()
  const wrong = platform.submitModal({ from: opened, fields: { 't.amount': 'two', 'c.turf': 'b' } })
  const message = await wrong.message()
  expect(isPrivate(message)).toBe(true)
  expect(textOf(message)).toContain('"two" is no number')
  const again = platform.press({ message, customId: buttonIn(message, 'Correct it') })
  expect(await again.modal()).toMatchObject({ components: [{}, { component: { value: 'two' } }, {}, {}] })

  const right = platform.submitModal({ from: again, fields: { 't.amount': '2', 'c.turf': 'b' } })
  expect((await right.firstResponse()).type).toBe(Kind.UpdateMessage)
  expect(textOf(await right.message())).toContain('Noted 2 on b, photos: 0')
  expect(await turns()).toBe(3)
  platform.assertClean()
})

test('a form that was put away opens again, and sent twice is noted once', async () => {
  const { platform, turns } = await startRig()
  const opened = platform.slash({ name: 'note add', ...crew })
  await opened.modal()
  const wrong = await platform
    .submitModal({ from: opened, fields: { 't.amount': 'x', 'c.turf': 'a' } })
    .message()
  const customId = buttonIn(wrong, 'Correct it')
  const first = platform.press({ message: wrong, customId })
  await first.modal()
  const second = platform.press({ message: wrong, customId })
  await second.modal()
  await platform.submitModal({ from: first, fields: { 't.amount': '7', 'c.turf': 'a' } }).message()
  const late = await platform
    .submitModal({ from: second, fields: { 't.amount': '8', 'c.turf': 'a' } })
    .message()
  expect(textOf(late)).toContain('Noted 7 on a')
  expect(await turns()).toBe(3)
  platform.assertClean()
})

test('a form with a photo is waited for privately, then shared', async () => {
  const { platform } = await startRig()
  const opened = platform.slash({ name: 'note add', ...crew })
  await opened.modal()
  const sent = platform.submitModal({
    from: opened,
    fields: { 't.amount': '3', 'c.turf': 'a', 'f.photo': [photo] },
  })
  expect((await sent.firstResponse()).type).toBe(Kind.DeferredChannelMessageWithSource)
  const { message } = await sent.followUp()
  expect(isPrivate(message)).toBe(false)
  expect(textOf(message)).toContain('Noted 3 on a, photos: 1')
  platform.assertClean()
})

test('a photo given as an option is fetched and kept', async () => {
  const { platform } = await startRig()
  const fired = platform.slash({ name: 'photo', ...crew, options: { picture: photo } })
  expect(textOf(await fired.message())).toContain(`weed.png: ${photo.bytes.length} bytes`)
  platform.assertClean()
})

test('buttons of a private message that led to a shared answer do not fail when pressed again', async () => {
  const { platform, turns } = await startRig()
  const opened = platform.slash({ name: 'note add', ...crew })
  await opened.modal()
  const wrong = await platform
    .submitModal({ from: opened, fields: { 't.amount': 'x', 'c.turf': 'a' } })
    .message()
  const again = platform.press({ message: wrong, customId: buttonIn(wrong, 'Correct it') })
  await again.modal()
  const sent = platform.submitModal({
    from: again,
    fields: { 't.amount': '3', 'c.turf': 'a', 'f.photo': [photo] },
  })
  await sent.followUp()
  const before = await turns()
  expect(buttonsOf(wrong)).toHaveLength(1)
  const third = platform.press({ message: wrong, customId: buttonIn(wrong, 'Correct it') })
  await third.modal()
  expect(await turns()).toBe(before)
  platform.assertClean()
})
