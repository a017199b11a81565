import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import sharp from 'sharp'
import { expect, onTestFinished, test } from 'vitest'
import { openRoom } from '../commands/open-room.ts'
import { keepApplication } from './keep-application.ts'

/** A photo of nothing, in a file of its own. */
async function photo(shade: number): Promise<string> {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-photo-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  const file = path.join(folder, 'plot.jpg')
  const background = { r: shade, g: 120, b: 60 }
  writeFileSync(
    file,
    await sharp({ create: { width: 400, height: 300, channels: 3, background } })
      .jpeg()
      .toBuffer(),
  )
  return file
}

/** A file that begins as a photo does and ends in the middle of its first line. */
async function damaged(): Promise<string> {
  const whole = await photo(140)
  const file = `${whole}.cut.jpg`
  writeFileSync(file, readFileSync(whole).subarray(0, 200))
  return file
}

async function rated({ last = 'photo' }: { readonly last?: 'photo' | 'damaged' } = {}) {
  const room = await openRoom()
  await room.store((store) =>
    keepApplication(store, { site: 'Ospelwick School', area: 'Entrance lawn', on: '2026-05-04' }),
  )
  const type = room.as('bex')
  await type(
    '/recheck plots record:R1',
    `= flag:1 where:"by the drive" cover:40 photo:${await photo(40)}`,
    '> 2',
  )
  await type('+ 14 days', `= control:25 injury:8 photo:${await photo(90)}`)
  await type('+ 14 days', `= control:60 photo:${await (last === 'photo' ? photo(140) : damaged())}`)
  return { room, type }
}

test('the card: application, plot, each look with its day, and the figure over the whole time', async () => {
  const { type } = await rated()
  const said = await type('/recheck history record:R1')
  expect(said.screen.slice(0, 5)).toEqual([
    'answer: History: Ospelwick School, Entrance lawn, R1',
    'Mon, May 4, 2026: Tarnbrask 75 WDG on 600 ft² against yellow nutsedge',
    'Plot 1: by the drive and 40 % weeds before',
    'Mon, May 18, 2026, day 14: 25 % control, lawn 8: a trace, seen close up (Bex Yolvarren)',
    'Mon, Jun 1, 2026, day 28: 60 % control, lawn 9: no damage (Bex Yolvarren)',
  ])
  expect(said.facts).toMatchObject({ record: 'R1', ratings: 2, percent_control: '60 %' })
  // By hand: (0 + 25) / 2 over 14 days and (25 + 60) / 2 over 14 days, of 28 days: 27.5.
  expect(said.lines).toContain('Over 28 days: 28 % control on average (area under the ratings)')
  const alts = said.shown.answered.reply.files.map(({ name, alt }) => [name, alt.say])
  expect(alts).toEqual([
    ['control.png', 'visits.chart'],
    ['photos.jpg', 'visits.photos'],
  ])
})

test('photos stand side by side under their days, in one picture for a phone, in light and in dark', async () => {
  const { room, type } = await rated()
  const said = await type('/recheck history record:R1')
  for (const theme of ['light', 'dark'] as const) {
    const [, bytes = new Uint8Array()] = await room.draw(said, { theme })
    const { format, width = 0, height = 0 } = await sharp(bytes).metadata()
    expect([format, width]).toEqual(['jpeg', 1440])
    // Three photos in two rows: about as high as wide.
    expect(height / width).toBeGreaterThan(0.8)
    expect(height / width).toBeLessThan(1.3)
    // The middle of each photo, by its share of red; the paper between them is that of the theme.
    const { data, info } = await sharp(bytes).raw().toBuffer({ resolveWithObject: true })
    const red = (x: number, y: number) => data[(Math.round(y) * info.width + Math.round(x)) * 3] ?? 0
    const rows = [height * 0.35, height * 0.82]
    expect(red(width * 0.25, rows[0] ?? 0)).toBeCloseTo(40, -1)
    expect(red(width * 0.75, rows[0] ?? 0)).toBeCloseTo(90, -1)
    expect(red(width * 0.25, rows[1] ?? 0)).toBeCloseTo(140, -1)
    expect(red(2, 2)).toBeCloseTo(theme === 'light' ? 255 : 31, -1)
  }
})

test('a photo that cannot be read leaves its frame empty, and the page for the client without it', async () => {
  const { room, type } = await rated({ last: 'damaged' })
  const said = await type('/recheck history record:R1')
  const [, bytes = new Uint8Array()] = await room.draw(said)
  expect((await sharp(bytes).metadata()).width).toBe(1440)
  const [page = new Uint8Array()] = await room.draw(await type('> 1'))
  // The chart and the two photos that can be read.
  expect(
    Buffer.from(page)
      .toString('latin1')
      .match(/\/Subtype \/Image\b/g)?.length,
  ).toBeGreaterThanOrEqual(3)
  expect(room.errors).toEqual([])
})

test('the history of a site is its newest application, with a press to each other', async () => {
  const { room, type } = await rated()
  await room.store((store) =>
    keepApplication(store, {
      site: 'Ospelwick School',
      area: 'Entrance lawn',
      on: '2026-06-01',
      rate: '0.05',
    }),
  )
  await type('/recheck plots record:R2', '> 1')
  const said = await type('/recheck history site:"Ospelwick School" area:"Entrance lawn"')
  expect(said.screen[0]).toBe('answer: History: Ospelwick School, Entrance lawn, R2')
  expect(said.choices).toEqual(['One page for the client (PDF)', 'R1, Mon, May 4, 2026'])
  const other = await type('> 2')
  expect(other.screen[0]).toBe('answer: History: Ospelwick School, Entrance lawn, R1')
})

test('a site alone is enough, however many areas it has', async () => {
  const { room, type } = await rated()
  await room.store((store) =>
    keepApplication(store, {
      site: 'Ospelwick School',
      area: 'Soccer field',
      on: '2026-06-01',
      rate: '0.05',
    }),
  )
  await type('/recheck plots record:R2', '> 1')
  const said = await type('/recheck history site:"Ospelwick School"')
  expect(said.screen[0]).toBe('answer: History: Ospelwick School, Soccer field, R2')
  expect(said.choices).toEqual(['One page for the client (PDF)', 'R1, Entrance lawn, Mon, May 4, 2026'])
  expect((await type('/recheck history site:"Harbor Cottages"')).screen).toEqual([
    'answer: Nothing has been marked at Harbor Cottages yet',
  ])
  expect((await type('/recheck history area:"Entrance lawn"')).outcome).toBe('question')
  expect((await type('/recheck history')).title).toBe('Of which record, or which site?')
})

test('without an untreated spot nobody is sent to compare with it', async () => {
  const { type } = await rated()
  const look = await type('+ 14 days', '/recheck rate record:R1')
  expect(look.lines.join()).not.toContain('untreated spot')
})

test('the same plots again end the looks of the application before', async () => {
  const { room, type } = await rated()
  await room.store((store) =>
    keepApplication(store, {
      site: 'Ospelwick School',
      area: 'Entrance lawn',
      on: '2026-06-01',
      rate: '0.05',
    }),
  )
  const again = await type('/recheck plots record:R2')
  expect(again.choices[0]).toBe('Same plots as R1')
  const marked = await type('> 1')
  expect(marked.lines).toContain('Plot 1: by the drive')
  const before = await type('/recheck history record:R1')
  expect(before.lines.join('\n')).toContain('skipped, followed by R2')
  const leido = await room.as('bex', 'es')('/recheck history record:R1')
  expect(leido.lines.join('\n')).toContain('no se hizo, siguió R2')
})

test('one page for the client holds the lines, the chart and the photos', async () => {
  const { room, type } = await rated()
  const said = await type('/recheck history record:R1', '> 1')
  expect(said.shown.answered.reply.files[0]?.name).toBe('history.pdf')
  const [bytes = new Uint8Array()] = await room.draw(said)
  const raw = Buffer.from(bytes).toString('latin1')
  expect(raw.startsWith('%PDF-')).toBe(true)
  expect(raw.match(/\/Type \/Page\b/g)).toHaveLength(1)
  // The chart and three photos.
  expect(raw.match(/\/Subtype \/Image\b/g)?.length).toBeGreaterThanOrEqual(4)
  if (!hasReader) return
  const text = spawnSync('pdftotext', ['-layout', '-', '-'], { input: bytes, encoding: 'utf8' }).stdout
  expect(text).toContain('History: Ospelwick School, Entrance lawn, R1')
  expect(text).toContain('day 28: 60 % control')
  expect(text).toContain('DEMO DATA')
})

/** A reader of papers that many machines have; without it the page is only counted. */
const hasReader = spawnSync('pdftotext', ['-v']).error === undefined
