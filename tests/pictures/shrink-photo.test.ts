import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { shrinkPhoto } from '#src/pictures/shrink-photo.ts'
import { noisyPhoto } from '#tests/helpers/photo.ts'

describe('shrinkPhoto()', () => {
  test('gives the largest copy that may leave, as JPEG, without what the camera wrote beside it', async () => {
    const photo = await noisyPhoto(1400)
    const copy = await shrinkPhoto(photo, 700_000)
    const { format, width, exif } = await sharp(copy ?? Buffer.alloc(0)).metadata()
    expect({ format, width, exif }).toEqual({ format: 'jpeg', width: 800, exif: undefined })
    expect(copy?.byteLength).toBeLessThanOrEqual(700_000)
    expect((await sharp(photo).metadata()).exif).toBeDefined()
  })

  test('turns a photo that was taken sideways upright', async () => {
    const sideways = await sharp({ create: { width: 60, height: 20, channels: 3, background: '#335533' } })
      .jpeg()
      .withMetadata({ orientation: 6 })
      .toBuffer()
    const copy = await shrinkPhoto(sideways, 100_000)
    const { width, height } = await sharp(copy ?? Buffer.alloc(0)).metadata()
    expect([width, height]).toEqual([20, 60])
  })

  test('what is clear in a picture becomes white', async () => {
    const clear = { create: { width: 8, height: 8, channels: 4, background: '#00000000' } } as const
    const copy = await shrinkPhoto(await sharp(clear).png().toBuffer(), 100_000)
    const { channels } = await sharp(copy ?? Buffer.alloc(0)).stats()
    expect(channels.map(({ mean }) => mean)).toEqual([255, 255, 255])
  })

  test.each([
    ['bytes that are no picture', Buffer.from('not a photo')],
    ['a picture that ends in the middle of its head', Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16])],
  ])('has no copy of %s', async (_what, bytes) => {
    expect(await shrinkPhoto(bytes, 100_000)).toBeNull()
  })

  test('a small file that says it is larger than any phone takes is not unfolded', async () => {
    const bomb = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#ffffff' } })
      .jpeg()
      .toBuffer()
    const frame = bomb.indexOf(Buffer.from([0xff, 0xc0]))
    bomb.writeUInt16BE(60_000, frame + 5)
    bomb.writeUInt16BE(60_000, frame + 7)
    await expect(sharp(bomb).stats()).rejects.toThrow('pixel limit')
    expect(await shrinkPhoto(bomb, 100_000)).toBeNull()
  })

  test('has none where even the smallest copy is more than may leave', async () => {
    expect(await shrinkPhoto(await noisyPhoto(400), 100)).toBeNull()
  })
})
