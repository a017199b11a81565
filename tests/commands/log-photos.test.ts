import { createHash } from 'node:crypto'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import sharp from 'sharp'
import { describe, expect, onTestFinished, test } from 'vitest'
import { verifyChain } from '#src/record/chain.ts'
import { noisyPhoto } from '#tests/helpers/photo.ts'
import { fillForms, press } from './fill-log.ts'
import { openRoom, type Typing } from './open-room.ts'

const START = [
  '/log product:"Tarnbrask 75 WDG" site:"Plimmet Street House" area:"Front lawn" coverage:"whole area"',
  'hands_washed:yes unusual:no',
].join(' ')

/** A file as it lies on a phone. */
function onPhone(name: string, bytes: Uint8Array | string): string {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-phone-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  const place = path.join(folder, name)
  writeFileSync(place, bytes)
  return place
}

const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')

const smallPhoto = (background: string) =>
  sharp({ create: { width: 30, height: 20, channels: 3, background } })
    .jpeg()
    .toBuffer()

/** A log at its last look. */
const looked = async (typing: Typing, line = START) => fillForms(typing, await typing(line))

describe('photos of a log', () => {
  test('are added at the last look, kept with the record, and shown again as they were', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const photo = await smallPhoto('#2f6d32')
    const asked = await press(bex, await looked(bex), 'Add photos')
    expect(asked.fields).toEqual(['photo'])
    const look = await bex(`= photo:${onPhone('ground.jpg', photo)}`)
    expect(look.lines).toContain('One photo with it.')
    const kept = await press(bex, look, 'Yes, record it')
    const shown = await bex(`/record show number:${kept.facts.record}`)
    expect((await room.draw(shown)).map(sha256)).toEqual([sha256(photo)])
  })

  test('one sent with the command stands beside one that is added', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const [first, second] = [await smallPhoto('#2f6d32'), await smallPhoto('#998855')]
    const look = await looked(bex, `${START} photo:${onPhone('one.jpg', first)}`)
    expect(look.lines).toContain('One photo with it.')
    await press(bex, look, 'Add photos')
    const again = await bex(`= photo:${onPhone('two.jpg', second)}`)
    expect(again.lines).toContain('2 photos with it.')
    await press(bex, again, 'Add photos')
    const same = await bex(`= photo:${onPhone('once-more.jpg', second)}`)
    expect(same.lines).toContain('2 photos with it.')
  })

  test('one sent with a log that is gone on with is not lost', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await looked(bex)
    const look = await bex(`/log draft:1 photo:${onPhone('one.jpg', await smallPhoto('#2f6d32'))}`)
    expect(look.lines).toContain('One photo with it.')
  })

  test('what is no photo and no PDF is named and not kept', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await press(bex, await looked(bex), 'Add photos')
    const asked = await bex(`= photo:${onPhone('list.json', '{}')}`)
    expect(asked.lines).toEqual(['list.json is no photo and no PDF. It was not kept.'])
    expect((await press(bex, asked, 'No photo')).title).toContain('is this right?')
    const refused = await bex(`${START} photo:${onPhone('list.json', '{}')}`)
    expect(refused.outcome).toBe('refusal')
  })

  test('are among the files that a backup copies', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const look = await looked(bex, `${START} photo:${onPhone('one.jpg', await smallPhoto('#2f6d32'))}`)
    await press(bex, look, 'Yes, record it')
    expect(await room.blobs()).toHaveLength(1)
  })

  test('one that is larger than may leave goes as a smaller copy, and says so', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const photo = await noisyPhoto(900)
    const look = await looked(bex, `${START} photo:${onPhone('big.jpg', photo)}`)
    const kept = await press(bex, look, 'Yes, record it')
    const shown = await bex(`/record show number:${kept.facts.record}`)
    const limit = Math.floor(photo.byteLength / 2)
    const [copy] = await room.draw(shown, { mostBytes: limit })
    expect(copy?.byteLength).toBeLessThanOrEqual(limit)
    expect((await sharp(copy ?? new Uint8Array()).metadata()).format).toBe('jpeg')
    expect((await room.draw(shown)).map(sha256)).toEqual([sha256(photo)])
  })
})

describe('HEIC, as newer phones save photos', () => {
  /** The head of such a file, by which its kind is told: a box `ftyp` with its brands (ISO/IEC 14496-12). */
  const heic = (brand: string) =>
    Buffer.concat([
      Buffer.from([0, 0, 0, 24]),
      Buffer.from(`ftyp${brand}\0\0\0\0mif1heic`),
      Buffer.alloc(40, 7),
    ])

  test.each(['heic', 'mif1'])(
    'of the brand %s, is kept as it came, and what that means is said',
    async (brand) => {
      const room = await openRoom()
      const bex = room.as('bex')
      const photo = heic(brand)
      await press(bex, await looked(bex), 'Add photos')
      const look = await bex(`= photo:${onPhone('ground.heic', photo)}`)
      expect(look.lines).toContain('One photo with it.')
      expect(look.lines).toContain(
        'A HEIC photo is kept as it is, and not every phone or paper shows it. Camera set to JPEG: everybody sees it.',
      )
      const kept = await press(bex, look, 'Yes, record it')
      const shown = await bex(`/record show number:${kept.facts.record}`)
      expect((await room.draw(shown)).map(sha256)).toEqual([sha256(photo)])
      expect(room.errors).toEqual([])
    },
  )
})

describe('photos that come after the record', () => {
  /** A record with one photo, and the form that takes more. */
  async function recorded() {
    const room = await openRoom()
    const bex = room.as('bex')
    const first = await smallPhoto('#2f6d32')
    const look = await looked(bex, `${START} photo:${onPhone('one.jpg', first)}`)
    await press(bex, look, 'Yes, record it')
    const form = await press(bex, await bex('/record amend record:R1'), 'Add photos')
    return { room, bex, form, first }
  }

  test('are added by an amendment: who, when and why stand in the record, and the chain holds', async () => {
    const { room, bex, form, first } = await recorded()
    expect(form.fields).toEqual(['photo', 'why'])
    const second = await smallPhoto('#998855')
    const done = await bex(`= photo:${onPhone('two.jpg', second)} why:"sign was posted later"`)
    const [one, two] = [first, second].map((bytes) => sha256(bytes).slice(0, 8))
    expect(done.screen.slice(0, 2)).toEqual([
      'answer: R1 is amended',
      `Photos: 1 (SHA-256 ${one}) → 2 (SHA-256 ${one}, ${two})`,
    ])
    const shown = await bex('/record show number:R1')
    expect(shown.lines.join('\n')).toMatch(/^Amended, R1-A1, .+, Bex Yolvarren: sign was posted later$/m)
    expect(shown.lines).toContain(`Photos: was 1 (SHA-256 ${one}); now 2 (SHA-256 ${one}, ${two})`)
    expect((await room.draw(shown)).map(sha256)).toEqual([first, second].map(sha256))
    const links = await room.store((store) => store.records.pageLinks(0, 100))
    expect(links.map(({ entry }) => entry.kind)).toEqual(['record', 'amendment'])
    expect(verifyChain(links)).toEqual([])
    expect(await room.blobs()).toHaveLength(2)
    expect(room.errors).toEqual([])
  })

  test('stand in the papers, with what stood before', async () => {
    const { room, bex } = await recorded()
    const second = await smallPhoto('#998855')
    await bex(`= photo:${onPhone('two.jpg', second)} why:"sign was posted later"`)
    const [csv] = await room.draw(await room.as('odalys')('/record export for:inspector format:csv'))
    expect(Buffer.from(csv ?? []).toString()).toContain(sha256(second))
  })

  test('want a reason, and a photo that is one', async () => {
    const { bex } = await recorded()
    const bare = await bex(`= photo:${onPhone('two.jpg', await smallPhoto('#998855'))} why:" "`)
    expect([bare.outcome, bare.fields]).toEqual(['question', ['photo', 'why']])
    const wrong = await bex(`= photo:${onPhone('list.json', '{}')} why:"later"`)
    expect(wrong.lines).toEqual(['list.json is no photo and no PDF. It was not kept.'])
    expect((await bex('/record show number:R1')).lines.join('\n')).not.toContain('Amended')
  })
})
