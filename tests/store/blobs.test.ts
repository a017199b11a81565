import { createHash } from 'node:crypto'
import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import fc from 'fast-check'
import { afterAll, expect, test } from 'vitest'
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

test.each(['', '..', '../../etc/passwd', 'A'.repeat(64), 'f'.repeat(63)])(
  'nothing is read by the name %j: it is no hash',
  async (name) => {
    await expect(blobs.read(name)).rejects.toThrow(RangeError)
  },
)
