import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
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

async function rated() {
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
  await type('+ 14 days', `= control:60 photo:${await photo(140)}`)
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
    ['plot-1.jpeg', 'visits.photo-plot'],
    ['day-14-2.jpeg', 'visits.photo-day'],
    ['day-28-3.jpeg', 'visits.photo-day'],
  ])
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
  expect(before.lines.join('\n')).toContain('skipped, Followed by R2')
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
