import { randomUUID } from 'node:crypto'
import { readFile } from 'node:fs/promises'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { PageAnswer } from '#src/messengers/room/page/shapes.ts'
import { request, tokenOf } from './http.ts'
import { type OpenPage, openPage } from './open-page.ts'

let page: OpenPage
let token: string

beforeAll(async () => {
  page = await openPage()
  token = await tokenOf(page.address)
})
afterAll(() => page.close())

const own = () => ({
  origin: page.address,
  'sec-fetch-site': 'same-origin',
  'content-type': 'application/json',
  'x-room-token': token,
})
const sent = (wants: object, as = 'bex') => JSON.stringify({ id: randomUUID(), as, wants })
const post = (body: string, headers: Readonly<Record<string, string>> = own(), path = '/ask') =>
  request(page.address, { method: 'POST', path, headers, body })
const askedOf = async (wants: object, as = 'bex'): Promise<PageAnswer> =>
  JSON.parse((await post(sent(wants, as))).text)

const LAST = { kind: 'run', command: 'last', options: {} }

test('a request of the page itself is answered', async () => {
  const { status, text } = await post(sent(LAST))
  expect(status).toBe(200)
  expect(JSON.parse(text)).toMatchObject({ entries: [{ outcome: 'question' }], problems: [] })
})

describe('a request that no page of ours has sent is refused, and asks nothing', () => {
  test.each([
    ['from another origin', 403, { origin: 'http://evil.example' }],
    ['from another port of this machine', 403, { origin: 'http://127.0.0.1:9' }],
    ['from no origin', 403, { origin: 'null' }],
    ['that the browser calls cross-site', 403, { 'sec-fetch-site': 'cross-site' }],
    ['that the browser calls same-site', 403, { 'sec-fetch-site': 'same-site' }],
    ['without the token', 409, { 'x-room-token': '' }],
    ['with a token that is nearly right', 409, { 'x-room-token': 'x'.repeat(32) }],
    ['as a plain form', 400, { 'content-type': 'text/plain' }],
  ])('%s: %i', async (_what, status, headers) => {
    const before = await askedOf({ kind: 'run', command: 'answers', options: {} })
    expect((await post(sent(LAST), { ...own(), ...headers })).status).toBe(status)
    const after = await askedOf({ kind: 'run', command: 'answers', options: {} })
    expect(Number(after.entries[0]?.number)).toBe(Number(before.entries[0]?.number) + 1)
  })

  test('without any origin', async () => {
    const { origin: _origin, ...headers } = own()
    expect((await post(sent(LAST), headers)).status).toBe(403)
  })

  test.each([
    ['{', 400],
    ['{}', 400],
    [JSON.stringify({ id: 'x', as: 'bex', wants: LAST }), 400],
    [sent({ kind: 'sudo' }), 400],
    [sent(LAST, 'nobody'), 404],
    [sent(LAST, '__proto__'), 404],
  ])('with the body %s', async (body, status) => {
    expect((await post(body)).status).toBe(status)
  })

  test('larger than a request can be', async () => {
    const headers = { ...own(), 'content-length': '200000' }
    expect((await post(sent(LAST), headers)).status).toBe(413)
  })

  test.each(['PUT', 'DELETE', 'PATCH', 'OPTIONS', 'HEAD'])('by the method %s', async (method) => {
    expect((await request(page.address, { method, path: '/ask', headers: own() })).status).toBe(405)
  })
})

describe('a button that is not there, or is somebody else’s, does nothing', () => {
  const METHODS = { kind: 'run', command: 'calibrate', options: {} }
  const pressed = (token: string, as?: string) => askedOf({ kind: 'press', token }, as)
  const others = async () => {
    const { entries } = await askedOf(METHODS, 'odalys')
    return { turn: entries[0]?.turn ?? 0, token: entries[0]?.choices[0]?.token ?? '' }
  }

  test.each([
    ['made up', 'nonsense'],
    ['of no turn', 's1.zzzzzz.1'],
    ['of turn 0', 's1.0.1'],
    ['number 99', 's1.1.99'],
    ['of another version', 's9.1.1'],
    ['with SQL in it', "s1.1.1' or 1=1"],
    ['of a form that is none', 's1.1.f'],
  ])('%s', async (_what, token) => {
    for (const wants of [
      { kind: 'press', token },
      { kind: 'submit', token, fields: { name: 'x' } },
    ]) {
      const { entries } = await askedOf(wants)
      expect(entries[0]?.outcome).toBe('refusal')
      expect(entries[0]?.choices).toEqual([])
    }
  })

  test('somebody else’s: neither by its token, nor by its number, and nothing of theirs shows', async () => {
    const { turn, token } = await others()
    for (const wants of [
      { kind: 'press', token },
      { kind: 'submit', token: token.replace(/1$/, 'f'), fields: { ground: '250 ft2' } },
      { kind: 'line', text: '> 1', last: turn },
    ]) {
      const { entries } = await askedOf(wants, 'bex')
      expect(entries[0]?.outcome).toBe('refusal')
      expect(JSON.stringify(entries)).not.toContain('By hand')
    }
    // Whose it is still has it.
    expect((await pressed(token, 'odalys')).entries[0]?.outcome).toBe('question')
  })

  test('pressed before: the second press sees what the first got', async () => {
    const { token } = await others()
    const [first, second] = [await pressed(token, 'odalys'), await pressed(token, 'odalys')]
    expect(first.entries[0]?.turn).not.toBeNull()
    expect(second.entries[0]?.turn).toBe(first.entries[0]?.turn)
  })

  test('of a page that was loaded before a restart is told to load again, and asks nothing', async () => {
    const { token: press } = await others()
    const old = await post(sent({ kind: 'press', token: press }, 'odalys'), {
      ...own(),
      'x-room-token': `${token.slice(0, -1)}${token.endsWith('a') ? 'b' : 'a'}`,
    })
    expect(old.status).toBe(409)
    expect((await pressed(press, 'odalys')).entries[0]?.outcome).toBe('question')
  })
})

describe('what can be read is read from here only', () => {
  test.each(['/events?as=bex', '/files/1/0?as=bex', '/assets/script.js'])('%s', async (path) => {
    const evil = { origin: 'http://evil.example', 'sec-fetch-site': 'cross-site' }
    expect((await request(page.address, { path, headers: evil })).status).toBe(403)
    expect((await request(page.address, { path, headers: { 'sec-fetch-site': 'cross-site' } })).status).toBe(
      403,
    )
  })

  test('a name that somebody else points to this machine is no name of ours', async () => {
    for (const host of ['evil.example', 'evil.example:80', '127.0.0.1.evil.example'])
      expect((await request(page.address, { path: '/?as=bex', headers: { host } })).status).toBe(421)
  })

  test('the stream brings nothing to nobody', async () => {
    const { text } = await request(page.address, { path: '/events?as=nobody' })
    expect(text).toContain('data: null')
  })
})

test('every page forbids what is inline, what is elsewhere, and being framed', async () => {
  for (const path of ['/', '/?as=bex', '/assets/script.js', '/nothing']) {
    const { headers } = await request(page.address, { path })
    expect(headers['content-security-policy']).toContain("default-src 'none'")
    expect(headers['content-security-policy']).toContain("frame-ancestors 'none'")
    expect(headers['content-security-policy']).not.toContain('unsafe')
    expect(headers['x-content-type-options']).toBe('nosniff')
  }
  const { text } = await request(page.address, { path: '/?as=bex' })
  expect(text).not.toMatch(/<script(?![^>]*(src="\/assets\/|type="application\/json"))/)
  expect(text).not.toMatch(/\sstyle=|\son[a-z]+=|<style/)
})

test('words in a page cannot end the block of data they stand in', async () => {
  const { text } = await request(page.address, { path: '/?as=bex' })
  const block = /<script type="application\/json" id="start">([\s\S]*?)<\/script>/.exec(text)?.[1] ?? ''
  expect(block).not.toContain('<')
  expect(JSON.parse(block)).toMatchObject({ person: 'bex' })
})

describe('files', () => {
  const upload = (bytes: Uint8Array, type: string, name = 'leaf.png') =>
    request(page.address, {
      method: 'POST',
      path: '/uploads',
      headers: { ...own(), 'content-type': type, 'x-file-name': encodeURIComponent(name) },
      body: bytes,
    })

  test('a file of this machine is never read by a typed path', async () => {
    const answer = await askedOf(
      { kind: 'line', text: '/site add photo:"package.json"', last: null },
      'odalys',
    )
    expect(answer.entries[0]).toMatchObject({ outcome: 'refusal' })
    expect(answer.problems.map(({ field }) => field)).toEqual(['photo'])
  })

  test('what is sent is looked into: a picture by name alone is none', async () => {
    const { text } = await upload(new TextEncoder().encode('<script>alert(1)</script>'), 'image/png')
    const photo = JSON.parse(text)
    const wants = { kind: 'run', command: 'site add', options: { name: 'Upload Yard', photo } }
    const answer = await askedOf(wants, 'odalys')
    expect(answer.entries[0]?.outcome).toBe('refusal')
    expect(answer.entries[0]?.lines.join()).toContain('leaf.png')
  })

  test('a real picture is kept', async () => {
    const { text } = await upload(await readFile('docs/figures/collar.png'), 'image/png')
    const wants = {
      kind: 'run',
      command: 'site add',
      options: { name: 'Upload Yard', photo: JSON.parse(text) },
    }
    expect((await askedOf(wants, 'odalys')).entries[0]).toMatchObject({
      outcome: 'question',
      isPrivate: true,
    })
  })

  test('one that is forgotten, or never was, is said to be unreadable', async () => {
    const photo = { upload: randomUUID() }
    const answer = await askedOf({ kind: 'run', command: 'site add', options: { photo } }, 'odalys')
    expect(answer.entries[0]).toMatchObject({ outcome: 'refusal' })
  })

  test('one above ten megabytes is not taken', async () => {
    // Its length alone is enough: nothing is read.
    const headers = { ...own(), 'content-type': 'image/png', 'content-length': String(10 * 1024 * 1024 + 1) }
    const sent = await request(page.address, { method: 'POST', path: '/uploads', headers, body: 'x' })
    expect(sent.status).toBe(413)
  })

  test('nor is one that hides its length, nor a request that is larger than it says', async () => {
    for (const [path, type, most] of [
      ['/uploads', 'image/png', 10 * 1024 * 1024],
      ['/ask', 'application/json', 128 * 1024],
    ] as const) {
      const headers = { ...own(), 'content-type': type, 'transfer-encoding': 'chunked' }
      const sent = await request(page.address, {
        method: 'POST',
        path,
        headers,
        body: Buffer.alloc(most + 1),
      })
      expect([path, sent.status]).toEqual([path, 413])
    }
  })

  test('too many that wait are not taken', async () => {
    const statuses: number[] = []
    for (let count = 0; count < 14; count++)
      statuses.push((await upload(new Uint8Array([1, 2, 3]), 'image/png')).status)
    expect(statuses).toContain(200)
    expect(statuses.at(-1)).toBe(429)
  })
})

describe('a page that lets other machines in', () => {
  test('needs a secret', async () => {
    await expect(openPage({ host: '0.0.0.0' })).rejects.toThrow('PAGE_SECRET')
  })

  test('shows nothing without it, and everything with it', async () => {
    const secret = 'sixteen letters at least'
    const open = await openPage({ host: '0.0.0.0', secret })
    const address = open.address.replace('0.0.0.0', '127.0.0.1')
    try {
      const shut = await request(address, { path: '/?as=bex' })
      expect({ status: shut.status, hasToken: shut.text.includes('token') }).toEqual({
        status: 401,
        hasToken: false,
      })
      expect((await request(address, { path: '/events?as=bex' })).status).toBe(401)
      const enter = (tried: string, origin = address) =>
        request(address, {
          method: 'POST',
          path: '/enter',
          headers: { origin, 'content-type': 'application/x-www-form-urlencoded' },
          body: `secret=${encodeURIComponent(tried)}`,
        })
      expect((await enter('wrong')).status).toBe(403)
      expect((await enter(secret, 'http://evil.example')).status).toBe(403)
      const entered = await enter(secret)
      const [cookie = ''] = entered.headers['set-cookie'] ?? []
      expect(cookie).toMatch(/HttpOnly/i)
      expect(cookie).toMatch(/SameSite=Strict/i)
      expect(cookie).not.toContain(secret)
      const inside = await request(address, {
        path: '/?as=bex',
        headers: { cookie: cookie.split(';')[0] ?? '' },
      })
      expect(inside.status).toBe(200)
      expect(inside.text).toContain('token')
      for (let count = 0; count < 12; count++) await enter('guess')
      expect((await enter(secret)).status).toBe(403)
    } finally {
      await open.close()
    }
  })
})
