import { InteractionResponseType as Kind } from 'discord.js'
import { expect, test } from 'vitest'
import { drawsNothing } from './draws.ts'
import { startRig } from './rig.ts'
import { buttonIn, buttonsOf, isPrivate, menuOf, textOf } from './seen.ts'

const crew = { user: 'demo.crew', channel: 'field' }

test('an answer shows in the channel: mark and word, the number large, safety and small print', async () => {
  const { platform } = await startRig()
  const message = await platform
    .slash({ name: 'echo', ...crew, options: { words: '*two* <@123> tanks' } })
    .message()
  expect(isPrivate(message)).toBe(false)
  expect(textOf(message)).toBe(
    [
      '**✓ Answer**',
      '# 2 gal for \\*two\\* \\<@123> tanks',
      '\\*two\\* \\<@123> tanks',
      'One more line.',
      '> Before the cap comes off: gloves and eye protection.',
      '-# The label wins. Follow local codes. Licensed people decide.',
      '-# Answer no. 1',
    ].join('\n'),
  )
  platform.assertClean()
  expect(platform.warnings).toEqual([])
})

test('the working is folded, and shown to who asks for it', async () => {
  const { platform } = await startRig()
  const message = await platform.slash({ name: 'echo', ...crew, options: { words: 'x' } }).message()
  const customId = buttonIn(message, 'Show the working')
  const working = await platform.press({ message, customId, user: 'demo.crew2' }).message()
  expect(isPrivate(working)).toBe(true)
  expect(textOf(working)).toContain('· Step 1 of the \\*working\\*: 1 \\< 2.\n· Step 2')
  expect(textOf(working)).toContain('> Antes de abrir la tapa')
  platform.assertClean()
})

test('a shared answer can be read in the language of whom it answers', async () => {
  const { platform } = await startRig()
  const message = await platform
    .slash({ name: 'echo', user: 'demo.crew2', channel: 'field', options: { words: 'x' } })
    .message()
  expect(textOf(message)).toContain('# 2 gal for x')
  const other = await platform.press({ message, customId: buttonIn(message, 'En español') }).message()
  expect(isPrivate(other)).toBe(true)
  expect(textOf(other)).toContain('2 gal para x')
  platform.assertClean()
})

test('a long answer is cut at sense and can be read to its end', async () => {
  const { platform } = await startRig()
  const message = await platform.slash({ name: 'lengthy', ...crew }).message()
  expect(textOf(message)).toContain('Shortened to fit')
  const fired = platform.press({ message, customId: buttonIn(message, 'Show all of it') })
  await fired.followUp(5)
  const pages = [await fired.message(), ...fired.followUps.map((later) => later.message)]
  const text = pages.map(textOf).join('\n')
  for (let n = 0; n < 200; n += 1) expect(text).toContain(`Step ${n} of`)
  platform.assertClean()
})

test('a question is replaced by what it led to; an answer stays and its used button goes gray', async () => {
  const { platform } = await startRig()
  const asked = platform.slash({ name: 'ask', ...crew })
  const question = await asked.message()
  expect(buttonsOf(question).map((one) => one.label)).toEqual(['One', 'Two', 'Three', 'En español'])
  expect(textOf(question)).toContain('-# The buttons are for demo.crew.')
  const chosen = platform.press({ message: question, customId: buttonIn(question, 'Two') })
  expect((await chosen.firstResponse()).type).toBe(Kind.UpdateMessage)
  const answer = await chosen.message()
  expect(answer.id).toBe(question.id)
  expect(textOf(answer)).toContain('# Chosen: two')
  expect(textOf(answer)).toContain('Anyone on the crew may press: Anyone')

  const tidied = platform.nextRequest({
    method: 'PATCH',
    route: '/channels/{channel_id}/messages/{message_id}',
  })
  const poured = platform.press({ message: answer, customId: buttonIn(answer, 'Poured') })
  expect((await poured.firstResponse()).type).toBe(Kind.ChannelMessageWithSource)
  expect((await tidied).status).toBe(200)
  const after = platform.messagesIn('field')
  expect(after.map((one) => textOf(one).split('\n')[1])).toEqual(['# Chosen: two', '# It is poured'])
  expect(buttonsOf(after[0] ?? {}).map((one) => one.disabled)).toEqual(
    [false, false, false, false].with(0, true),
  )
  platform.assertClean()
})

test('only whose button it is may press it, others are told whose', async () => {
  const { platform } = await startRig()
  const question = await platform.slash({ name: 'ask', ...crew }).message()
  const refused = platform.press({
    message: question,
    customId: buttonIn(question, 'One'),
    user: 'demo.lead',
  })
  const message = await refused.message()
  expect(isPrivate(message)).toBe(true)
  expect(textOf(message)).toContain('demo.crew')
  expect(buttonsOf(platform.messagesIn('field')[0] ?? {}).every((one) => !one.disabled)).toBe(true)
  const answer = await platform.press({ message: question, customId: buttonIn(question, 'One') }).message()
  const anyone = platform.press({ message: answer, customId: buttonIn(answer, 'Anyone'), user: 'demo.lead' })
  expect(textOf(await anyone.message())).toContain('# Again')
  platform.assertClean()
})

test('many choices are one menu, and a private conversation stays one message', async () => {
  const { platform } = await startRig()
  const question = await platform.slash({ name: 'many', ...crew }).message()
  expect(isPrivate(question)).toBe(true)
  const { customId, values } = menuOf(question)
  expect(values).toHaveLength(12)
  const chosen = platform.select({ message: question, customId, values: [values[7] ?? ''] })
  expect((await chosen.firstResponse()).type).toBe(Kind.UpdateMessage)
  expect(textOf(await chosen.message())).toContain('Chosen: 7')
  platform.assertClean()
})

test('a picture follows the first response, with its alt text', async () => {
  const { platform } = await startRig()
  const fired = platform.slash({ name: 'chart', ...crew })
  expect(textOf((await fired.firstResponse()).data)).toContain('Picture on its way')
  const { message, files } = await fired.edit()
  expect(files).toMatchObject([{ name: '1_toy.png', contentType: 'image/png' }])
  expect(textOf(message)).not.toContain('on its way')
  expect(message.attachments).toMatchObject([{ filename: '1_toy.png', description: 'An invented chart' }])
  platform.assertClean()
  expect(platform.warnings).toEqual([])
})

test('a picture that cannot be drawn is named, and the answer stands', async () => {
  const { platform, lines } = await startRig({
    adapter: {
      draw: drawsNothing('no ink'),
    },
  })
  const fired = platform.slash({ name: 'chart', ...crew })
  const { message } = await fired.edit()
  expect(textOf(message)).toContain('Could not be sent: An invented chart')
  expect(lines.filter((line) => line.level === 'error')).toHaveLength(1)
  platform.assertClean()
})

test('a slow command waits privately and brings its paper at once', async () => {
  const { platform } = await startRig()
  const fired = platform.slash({ name: 'paper', ...crew })
  expect((await fired.firstResponse()).type).toBe(Kind.DeferredChannelMessageWithSource)
  const { message } = await fired.edit()
  expect(isPrivate(message)).toBe(true)
  expect(message.attachments).toMatchObject([{ filename: '1_toy.pdf' }])
  platform.assertClean()
  expect(platform.warnings).toEqual([])
})

test('a slow answer for the crew is shared in a second message', async () => {
  const { platform } = await startRig()
  const fired = platform.slash({ name: 'paper', ...crew, options: { share: true } })
  const { message } = await fired.followUp()
  expect(isPrivate(message)).toBe(false)
  expect(fired.edits.map((later) => isPrivate(later.message))).toEqual([true])
  platform.assertClean()
})

test('what is longer than six pages says where the rest is kept', async () => {
  const { platform } = await startRig()
  const message = await platform.slash({ name: 'lengthy', ...crew, options: { lines: 900 } }).message()
  const fired = platform.press({ message, customId: buttonIn(message, 'Show all of it') })
  const { message: last } = await fired.followUp(5)
  expect(textOf(last)).toContain('-# Shortened: the rest is kept under answer no. 1.')
  platform.assertClean()
})
