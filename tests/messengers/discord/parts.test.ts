import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import fc from 'fast-check'
import { describe, expect, onTestFinished, test } from 'vitest'
import { writeToken } from '#src/conversation/token.ts'
import { readCustomId, readHead, writeCustomId, writeHead } from '#src/messengers/discord/custom-id.ts'
import { attachmentFetcher } from '#src/messengers/discord/files.ts'
import { readFields, writeFieldId } from '#src/messengers/discord/form-fields.ts'
import { readInteraction } from '#src/messengers/discord/read.ts'
import { filesShown, grayUsed, holdsHead } from '#src/messengers/discord/tidy.ts'

describe('custom ids', () => {
  const head = fc.oneof(
    fc
      .record({
        turnId: fc.nat(),
        choice: fc.oneof(fc.integer({ min: 1, max: 25 }), fc.constant('form' as const)),
      })
      .map(writeToken),
    fc.nat().map((turnId) => writeHead({ kind: 'working', turnId })),
    fc.nat().map((turnId) => writeHead({ kind: 'language', turnId, language: 'es' })),
  )
  const marks = fc.record({
    closing: fc.boolean(),
    slow: fc.boolean(),
    question: fc.boolean(),
    repeat: fc.boolean(),
  })

  test('come back as they were written, within 100 characters', () => {
    fc.assert(
      fc.property(
        head,
        marks,
        fc.option(fc.bigInt({ min: 0n, max: 2n ** 64n - 1n }).map(String)),
        (one, all, guild) => {
          const text = writeCustomId({ head: one, marks: all, guild })
          const set = Object.fromEntries(Object.entries(all).filter(([, on]) => on))
          expect(readCustomId(text)).toEqual({ head: one, marks: set, guild })
          expect(text.length).toBeLessThanOrEqual(100)
        },
      ),
    )
  })

  test.each(['', 'menu:order:66', '!', '@', 's1.1.1!zz', 'w1', 'l1.2', 'p1.-3', '💥'])(
    '"%s" of another program is no head of ours',
    (text) => {
      const read = readCustomId(text)
      expect(read.head).toBe(text)
      expect(readHead(read.head)).toBeNull()
    },
  )
})

describe('used-up buttons', () => {
  const button = (custom_id: string) => ({ type: 2, style: 1, label: 'x', custom_id })
  const message = [
    {
      type: 17,
      components: [{ type: 9, components: [{ type: 10, content: 'x' }], accessory: button('s1.1.1') }],
    },
    {
      type: 12,
      items: [
        {
          media: { url: 'http://host/attachments/1/2/1_a.png?ex=1', proxy_url: 'x', attachment_id: '2' },
          description: 'a',
        },
      ],
    },
    { type: 1, components: [button('s1.1.2!r'), button('w1.1'), button('s1.1.f')] },
  ]

  test('go gray; what may be pressed again or only shows more stays, and files go by their names', () => {
    expect(grayUsed(message)).toEqual([
      {
        type: 17,
        components: [
          {
            type: 9,
            components: [{ type: 10, content: 'x' }],
            accessory: { ...button('s1.1.1'), disabled: true },
          },
        ],
      },
      { type: 12, items: [{ media: { url: 'attachment://1_a.png' }, description: 'a' }] },
      { type: 1, components: [button('s1.1.2!r'), button('w1.1'), { ...button('s1.1.f'), disabled: true }] },
    ])
  })

  test('the files that show are named by id, so that an edit keeps them', () => {
    expect(filesShown(message)).toEqual([{ id: '2', filename: '1_a.png' }])
    expect(filesShown([{ type: 12, items: [{ media: { url: 'https://elsewhere/a.png' } }] }])).toEqual([])
  })

  test('a message without any is left alone', () => {
    expect(grayUsed([{ type: 1, components: [button('w1.1'), button('s1.1.2!r')] }])).toBeNull()
    expect(grayUsed(grayUsed(message) ?? [])).toBeNull()
  })

  test('are found by their token', () => {
    expect(holdsHead(message, 's1.1.f')).toBe(true)
    expect(holdsHead(message, 's1.2.f')).toBe(false)
  })
})

describe('a filled form', () => {
  const handle = { name: 'a.png', type: 'image/png', bytes: 1, url: 'x' }
  test('one choice is a text, several are a list, files are handles, and what was left empty is empty', () => {
    const filled = [
      { customId: writeFieldId({ kind: 'text', name: 'amount' }), value: '2', values: [] },
      { customId: writeFieldId({ kind: 'long-text', name: 'notes' }), value: '', values: [] },
      { customId: writeFieldId({ kind: 'choice', name: 'turf' }), value: null, values: ['a'] },
      { customId: writeFieldId({ kind: 'choices', name: 'weeds' }), value: null, values: ['a', 'b'] },
      { customId: writeFieldId({ kind: 'choices', name: 'none' }), value: null, values: [] },
      { customId: writeFieldId({ kind: 'file', name: 'photo' }), value: null, values: ['7', '8'] },
      { customId: writeFieldId({ kind: 'file', name: 'other' }), value: null, values: [] },
    ]
    expect(readFields(filled, new Map([['7', handle]]))).toEqual({
      amount: '2',
      notes: '',
      turf: 'a',
      weeds: ['a', 'b'],
      none: [],
      photo: [handle],
    })
  })
})

describe('uploaded files', () => {
  async function serve(body: Uint8Array, status = 200, headers: Record<string, string> = {}) {
    const server = createServer((_, response) => response.writeHead(status, headers).end(body))
    await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
    onTestFinished(() => new Promise<void>((done) => server.close(() => done())))
    const host = `127.0.0.1:${(server.address() as AddressInfo).port}`
    return { host, handle: { name: 'a', type: '', bytes: 1, url: `http://${host}/a` } }
  }

  test('are fetched from an allowed host', async () => {
    const { host, handle } = await serve(new Uint8Array([1, 2, 3]))
    expect([...(await attachmentFetcher([host])(handle, 10))]).toEqual([1, 2, 3])
  })

  test.each([
    'http://127.0.0.1:1/x',
    'http://cdn.discordapp.com/a',
    'https://cdn.discordapp.com.demo.example/a',
    'https://cdn.discordapp.com:444/a',
    'file:///a',
  ])('are not fetched from %s', async (url) => {
    await expect(attachmentFetcher()({ name: 'a', type: '', bytes: 1, url }, 10)).rejects.toThrow(
      'not one of the allowed hosts',
    )
  })

  test('are given up past their size, on a redirect and on an error', async () => {
    const large = await serve(new Uint8Array(1000))
    await expect(attachmentFetcher([large.host])(large.handle, 999)).rejects.toThrow('larger than 999')
    const moved = await serve(new Uint8Array(), 302, { location: 'http://127.0.0.1:1/secret' })
    await expect(attachmentFetcher([moved.host])(moved.handle, 999)).rejects.toThrow()
    const gone = await serve(new Uint8Array(), 404)
    await expect(attachmentFetcher([gone.host])(gone.handle, 999)).rejects.toThrow('404')
  })
})

describe('what the gateway sends', () => {
  test('anything at all is read or is a problem, never an exception', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.json().map((text): unknown => JSON.parse(text)),
          fc.anything(),
        ),
        (raw) => {
          expect(typeof readInteraction(raw).ok).toBe('boolean')
        },
      ),
    )
  })
})
