import { createHash } from 'node:crypto'
import { mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import fc from 'fast-check'
import { afterAll, expect, onTestFinished, test } from 'vitest'
import { blobsIn } from '#src/store/blobs.ts'

const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-blobs-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))
const blobs = blobsIn(folder)

test('bytes come back by the hash of their content, whatever they are', async () => {
  await fc.assert(
    fc.asyncProperty(fc.uint8Array({ maxLength: 2000 }), async (bytes) => {
      const hash = await blobs.keep(bytes)
      expect(hash).toBe(createHash('sha256').update(bytes).digest('hex'))
      expect(new Uint8Array(await blobs.read(hash))).toEqual(bytes)
    }),
    { numRuns: 20 },
  )
})

test('the same bytes kept twice, even at once, are one file and leave no draft behind', async () => {
  const bytes = Buffer.from('the same photo')
  const [hash] = await Promise.all([blobs.keep(bytes), blobs.keep(bytes), blobs.keep(bytes)])
  await blobs.keep(bytes)
  const names = readdirSync(path.dirname(blobs.pathOf(hash))).filter((name) => name.startsWith(hash))
  expect(names).toEqual([hash])
})

test('nobody else on the machine can read it, whatever the umask', async () => {
  const before = process.umask(0)
  onTestFinished(() => {
    process.umask(before)
  })
  const place = blobs.pathOf(await blobs.keep(Buffer.from('a photo of a client’s lawn')))
  expect([place, path.dirname(place)].map((one) => statSync(one).mode & 0o777)).toEqual([0o600, 0o700])
})

test.each(['', '..', '../../etc/passwd', 'A'.repeat(64), 'f'.repeat(63)])(
  'nothing is read by the name %j: it is no hash',
  async (name) => {
    await expect(blobs.read(name)).rejects.toThrow(RangeError)
  },
)
