import { writeFileSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'
import { judgeBodies } from './bodies.ts'
import { startStage } from './stand-in.ts'

const CALLBACK = 'POST /interactions/{interaction_id}/{interaction_token}/callback'
const text = (content: string) => ({ type: 10, content })
const message = (parts: object) => ({ type: 4, data: { flags: 32_768, components: [text('x')], ...parts } })

/** Each breaks one rule that the client itself does not check. */
const BREACHES = [
  ['41 components', CALLBACK, message({ components: Array.from({ length: 41 }, () => text('x')) })],
  ['more text than a message holds', CALLBACK, message({ components: [text('x'.repeat(4000)), text('x')] })],
  ['old content beside new components', CALLBACK, message({ content: 'x' })],
  [
    'two buttons of one id',
    CALLBACK,
    message({
      components: [
        { type: 1, components: [1, 2].map(() => ({ type: 2, style: 1, label: 'x', custom_id: 'a' })) },
      ],
    }),
  ],
  [
    'a form of six fields',
    CALLBACK,
    { type: 9, data: { custom_id: 'a', title: 'x', components: Array.from({ length: 6 }, () => text('x')) } },
  ],
  [
    'a nonce that is too long',
    'POST /channels/{channel_id}/messages',
    { content: 'x', nonce: 'x'.repeat(26) },
  ],
  [
    'a private edit',
    'PATCH /webhooks/{webhook_id}/{webhook_token}/messages/@original',
    { flags: 64, components: [text('x')] },
  ],
  [
    'a command without a description',
    'PUT /applications/{application_id}/commands',
    [{ name: 'mix', type: 1 }],
  ],
  ['a recipient who is nobody', 'POST /users/@me/channels', { recipient_id: 'demo' }],
  ['a route that nobody has rules for', 'POST /nowhere', {}],
] as const

test.each(BREACHES)('%s is complained of', async (_, name, body) => {
  const { folder } = await startStage()
  const [method, route] = name.split(' ')
  const file = path.join(folder, 'own.jsonl')
  writeFileSync(file, `${JSON.stringify({ method, route, body, files: [] })}\n`)
  expect(judgeBodies(file).complaints).not.toEqual([])
})
