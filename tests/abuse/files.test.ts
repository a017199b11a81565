import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { deflateSync, gzipSync } from 'node:zlib'
import fc from 'fast-check'
import sharp from 'sharp'
import { expect, onTestFinished, test } from 'vitest'
import type { Ask, StoredFile } from '#src/conversation/ask.ts'
import { MOST_FILE_BYTES, takeFilesInto } from '#src/desk/take-files.ts'
import { readBook } from '#src/label/book.ts'
import { attachmentFetcher } from '#src/messengers/discord/files.ts'
import { readPhoto } from '#src/pictures/photo.ts'
import { blobsIn } from '#src/store/blobs.ts'
import { run } from '#tests/helpers/asks.ts'

/** Sends one file with a request: what is kept of it, what was said of it, and which files are on disk. */
async function send(bytes: Uint8Array, { name = 'photo.png', type = 'image/png', size = bytes.length } = {}) {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-files-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  const take = takeFilesInto(blobsIn(path.join(folder, 'files')), async (_handle, most) => {
    if (bytes.length > most) throw new Error('too large')
    return bytes
  })
  const handle = { url: 'https://demo.example/x', name, type, bytes: size }
  const { ask, problems, texts } = await take(run('x', { photo: handle } as never))
  const kept = (ask as Extract<Ask, { kind: 'run' }>).options.photo as unknown as StoredFile | null
  const disk = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((one) => one.isFile())
    .map((one) => one.name)
  return { kept, problems: problems.map(({ say }) => say), texts, disk }
}

/** A PNG that says it is as wide and high as that, in a few bytes. */
function pngOf(width: number, height: number): Uint8Array {
  const header = Buffer.alloc(25)
  header.writeUInt32BE(13, 0)
  header.write('IHDR', 4)
  header.writeUInt32BE(width, 8)
  header.writeUInt32BE(height, 12)
  header.set([8, 6, 0, 0, 0], 16)
  const data = deflateSync(Buffer.alloc(1000))
  const length = Buffer.alloc(4)
  length.writeUInt32BE(data.length)
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
  return Buffer.concat([signature, header, length, Buffer.from('IDAT'), data, Buffer.alloc(4)])
}

const ZIP = Buffer.concat([Buffer.from([0x50, 0x4b, 3, 4, 20, 0, 0, 0]), Buffer.alloc(200)])

test.each([
  ['a zip', ZIP],
  ['a gzip that would unpack to a hundred times its size', gzipSync(Buffer.alloc(1_000_000))],
  ['a program', Buffer.concat([Buffer.from('\x7fELF\x02\x01\x01'), Buffer.alloc(200)])],
  ['a Windows program', Buffer.concat([Buffer.from('MZ'), Buffer.alloc(200)])],
  ['a drawing that can carry scripts', Buffer.from('<?xml version="1.0"?><svg onload="alert(1)"/>')],
  ['a page', Buffer.from('<html><script>alert(1)</script>')],
  ['noise', Buffer.from([1, 2, 3, 4, 0, 9])],
])('%s under the name of a photo is not kept', async (_what, bytes) => {
  const { kept, problems, disk } = await send(bytes)
  expect({ kept, problems, disk }).toEqual({ kept: null, problems: ['desk.file-kind'], disk: [] })
})

test('a picture that would be gigabytes once unpacked is kept as the few bytes that it is', async () => {
  const bytes = pngOf(100_000, 100_000)
  const { kept, disk } = await send(bytes)
  expect(kept).toMatchObject({ type: 'image/png', bytes: bytes.length })
  expect(disk).toEqual([kept?.blob])
})

test('such a picture is not unpacked to be shown, and neither is what is damaged or no picture', async () => {
  const box = { width: 400, height: 300 }
  const large = await sharp({ create: { width: 9000, height: 9000, channels: 3, background: '#4f8a3a' } })
    .png()
    .toBuffer()
  expect(large.length).toBeLessThan(MOST_FILE_BYTES)
  const photo = await sharp({ create: { width: 90, height: 60, channels: 3, background: '#4f8a3a' } })
    .jpeg()
    .toBuffer()
  for (const bytes of [large, pngOf(100_000, 100_000), photo.subarray(0, 200), ZIP, Buffer.from('%PDF-1.7')])
    expect(await readPhoto(bytes, box)).toBeNull()
  expect(await readPhoto(photo, box)).toMatchObject({ width: 90, height: 60 })
})

test('a photo is shown upright', async () => {
  const lying = await sharp({ create: { width: 800, height: 400, channels: 3, background: '#4f8a3a' } })
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer()
  expect(await readPhoto(lying, { width: 300, height: 300 })).toMatchObject({ width: 150, height: 300 })
})

test('a text is told from bytes that only say so, and no content decides where it is kept', async () => {
  expect((await send(Buffer.from('a,b\n1,2'), { name: 'x.csv', type: 'text/csv' })).texts.size).toBe(1)
  expect((await send(Buffer.from('a\0b'), { name: 'x.txt', type: 'text/plain' })).problems).toEqual([
    'desk.file-kind',
  ])
})

test('a file that says it is small and is not, or the other way round, is not kept', async () => {
  const large = new Uint8Array(MOST_FILE_BYTES + 1)
  expect((await send(large, { size: 10 })).problems).toEqual(['desk.file-failed'])
  expect((await send(pngOf(1, 1), { size: MOST_FILE_BYTES + 1 })).problems).toEqual(['desk.file-too-big'])
  expect((await send(new Uint8Array(0))).problems).toEqual(['desk.file-failed'])
})

test('whatever a file is called, it is kept under its hash, and its name holds no way to anywhere', async () => {
  const names = fc.oneof(
    fc.constantFrom(
      '../../etc/passwd',
      '..\\..\\windows\\system.ini',
      '/etc/passwd',
      'C:\\autoexec.bat',
      '.',
      '..',
      '',
      '\u202egnp.exe',
      'a\0b.png',
      'x'.repeat(500),
      '=cmd|x',
      'con.png',
      '@everyone.png',
      'a\nb.png',
    ),
    fc.string({ unit: 'binary', maxLength: 40 }),
  )
  await fc.assert(
    fc.asyncProperty(names, async (name) => {
      const { kept, disk } = await send(pngOf(1, 1), { name })
      expect(disk).toEqual([kept?.blob])
      expect(kept?.name).toMatch(/^[\p{L}\p{N}._ -]{1,100}$/u)
      expect(kept?.name).not.toMatch(/^[._ ]*$/)
    }),
    { numRuns: 60 },
  )
})

test.each([
  'http://cdn.discordapp.com/x.png',
  'https://cdn.discordapp.com.demo.example/x.png',
  'https://demo.example/cdn.discordapp.com/x.png',
  'https://cdn.discordapp.com@127.0.0.1/x.png',
  'http://127.0.0.1/health',
  'http://169.254.169.254/latest',
  'file:///etc/passwd',
])('a file is never fetched from %s', async (url) => {
  const fetching = attachmentFetcher()({ url, name: 'x', type: 'image/png', bytes: 1 }, 10)
  await expect(fetching).rejects.toThrow(/not one of the allowed hosts/)
})

test('whatever stands in a label file, it is read or refused with problems, never thrown over', () => {
  const taxa = new Set(['digitaria-ischaemum'])
  const text = fc.oneof(
    fc.string({ maxLength: 300 }),
    fc.json({ maxDepth: 6 }),
    fc.constantFrom(
      '[]',
      '{}',
      'null',
      '[[[[',
      '{"__proto__":{}}',
      `[${'['.repeat(2000)}`,
      '\ufeff[]',
      '[{}]',
    ),
    fc
      .array(fc.dictionary(fc.constantFrom('name', 'lines', 'rates', 'turf', 'x'), fc.jsonValue()), {
        maxLength: 4,
      })
      .map((entries) => JSON.stringify(entries)),
  )
  fc.assert(
    fc.property(text, (given) => {
      const read = readBook(given, taxa as never)
      if (!read.ok) expect(read.error.length).toBeGreaterThan(0)
    }),
    { numRuns: 300 },
  )
})
