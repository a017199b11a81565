import { expect, test } from 'vitest'
import type { RecordDraft } from '#src/record/record.ts'
import { keepAmendment, keepRecord } from '#tests/helpers/keep-record.ts'
import { openRoom } from '#tests/helpers/room.ts'
import { inDemo } from '#tests/records/room.ts'

const notRecorded = { notRecorded: true } as const

/** A room in which the demo crew has kept so many records, one a day. */
async function roomWith(count: number, parts: (at: number) => Partial<RecordDraft> = () => ({})) {
  const room = await openRoom()
  await inDemo(room.bot, async (store) => {
    const [person] = await store.people.list()
    const [site] = await store.sites.list()
    if (person === undefined || site === undefined) throw new Error('The demo crew is empty')
    for (let at = 1; at <= count; at += 1)
      await keepRecord(store, {
        personId: person.id,
        record: { date: `2025-06-${String(at).padStart(2, '0')}`, siteId: site.id, ...parts(at) },
        row: { siteId: site.id, complete: parts(at).county === undefined },
      })
  })
  return room
}

test('/records lists ten, the newest first, and goes on with "older"', async () => {
  const room = await roomWith(12)
  const first = await room.ask('/records')
  expect(first.outcome).toBe('answer')
  expect(first.text.split('\n').slice(0, 2)).toEqual([
    expect.stringMatching(
      /^R12 {2}Thu, Jun 12, 2025 {2}.+ {2}Invented 75 WDG: complete and within the label$/,
    ),
    expect.stringContaining('R11'),
  ])
  expect(first.facts).toMatchObject({
    record: { value: 'R12' },
    complete: { value: true },
    within_label: { value: 'yes' },
    missing: { value: '' },
    record_10: { value: 'R3' },
  })
  expect(first.choices[0]?.label).toBe('Older')
  const older = await room.ask('> 1')
  expect(older.text).toContain('R2')
  expect(older.text).not.toContain('R3')
  expect(older.choices.map(({ label }) => label)).toEqual(['Show R2', 'Show R1'])
  expect((await room.ask('> 2')).title).toMatch(/^R1 {2}Sun, Jun 1, 2025/)
})

test.each([
  { line: 'from:2025-06-02 to:2025-06-03', numbers: ['R3', 'R2'] },
  { line: 'from:6/4/2025', numbers: ['R4'] },
  { line: 'product:"Invented 75 WDG" to:2025-06-01', numbers: ['R1'] },
  { line: 'complete:no', numbers: ['R2'] },
])('/records $line finds $numbers', async ({ line, numbers }) => {
  const room = await roomWith(4, (at) => (at === 2 ? { county: notRecorded } : {}))
  const found = await room.ask(`/records ${line}`)
  const names = Object.entries(found.facts).flatMap(([name, { value }]) =>
    /^record/.test(name) ? [value] : [],
  )
  expect(names).toEqual(numbers)
})

test('/records asks about a name that it does not know, and refuses days that turn around', async () => {
  const room = await roomWith(1)
  expect(await room.ask('/records site:Ospelwik')).toMatchObject({
    outcome: 'question',
    choices: [{ n: 1, label: 'Ospelwick School' }],
  })
  expect((await room.ask('> 1')).outcome).toMatch(/answer|question/)
  expect(await room.ask('/records from:2025-06-03 to:2025-06-01')).toMatchObject({ outcome: 'refusal' })
  expect(await room.ask('/records from:soon')).toMatchObject({ outcome: 'refusal' })
  expect(await room.ask('/records product:Nosuch')).toMatchObject({ outcome: 'question' })
  expect(await room.ask('/records from:2030-01-01')).toMatchObject({
    title: 'No record fits. Ask for more days, or leave something out.',
  })
})

test('/record show says what is missing, what was amended and why', async () => {
  const room = await roomWith(1, () => ({
    endedAt: notRecorded,
    county: 'Demo County',
    rules: { table: 'WI', state: 'WI' },
  }))
  await inDemo(room.bot, (store) => keepAmendment(store, 1))
  const shown = await room.ask('/record show number:R1')
  expect(shown.outcome).toBe('heads-up')
  expect(shown.facts).toMatchObject({
    record: { value: 'R1' },
    complete: { value: false },
    missing: { value: expect.stringContaining('end-time') },
  })
  expect(shown.text).toContain('Not recorded: ')
  expect(shown.text).toContain(
    'Amended, R1-A1, 2025-07-01 08:00, Demo Person Quillfern: typed the wrong county\nCounty: was Demo County; now Other County',
  )
  expect(shown.working.join('\n')).toContain('County: Other County')
})

test('/record show attaches the photos that were taken with it', async () => {
  const room = await openRoom()
  const png = Buffer.from(
    'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
    'base64',
  )
  const blob = await room.bot.blobs.keep(png)
  await inDemo(room.bot, async (store) => {
    const [person] = await store.people.list()
    await keepRecord(store, { personId: person?.id ?? 0, record: { photos: [blob] } })
  })
  const shown = await room.ask('/record show number:1')
  expect(shown.files).toMatchObject([{ name: 'photo-1.png', type: 'image/png', bytes: png.byteLength }])
  expect(room.errors).toEqual([])
})

test('/record show keeps license numbers from those who do not lead', async () => {
  const room = await roomWith(1)
  const all = ({ text, working }: { text: string; working: string[] }) => [text, ...working].join('\n')
  expect(all(await room.ask('/record show number:1'))).toContain('DEMO-L1')
  const crew = all(await room.as('crew').ask('/record show number:1'))
  expect(crew).toContain('License of the applicator: withheld')
  expect(crew).not.toContain('DEMO-L1')
})

test('/record show knows no number that there is not', async () => {
  const room = await openRoom()
  expect(await room.ask('/record show number:R7')).toMatchObject({
    outcome: 'question',
    title: 'There is no record R7',
  })
  expect(await room.ask('/record show number:seven')).toMatchObject({ outcome: 'refusal' })
})
