import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { keepRecord } from '#tests/helpers/keep-record.ts'
import { openRoom } from '#tests/helpers/room.ts'
import { product } from '#tests/record/build.ts'
import { inDemo } from '#tests/records/room.ts'

/** A room whose demo crew has kept one record on each of two properties, of a product of its own label book. */
async function roomWithRecords(date = '2026-05-02') {
  const room = await openRoom()
  const sites = await inDemo(room.bot, async (store) => {
    const [person] = await store.people.list()
    const [one, two] = await store.sites.list()
    const [booked] = await store.labels.list()
    if (!person || !one || !two || !booked) throw new Error('The demo crew is empty')
    for (const site of [one, two])
      await keepRecord(store, {
        personId: person.id,
        record: {
          siteId: site.id,
          date,
          county: `County of ${site.name}`,
          products: [product({ name: booked.name })],
        },
      })
    return [one.name, two.name] as const
  })
  return { room, sites }
}

const linesIn = (path: string | undefined) =>
  readFileSync(path ?? '', 'utf8')
    .trim()
    .split('\r\n')

test('a lead gets everything for an inspector, as the file that was asked for', async () => {
  const { room } = await roomWithRecords()
  const reply = await room.ask('/record export for:inspector format:csv')
  expect(reply).toMatchObject({
    outcome: 'answer',
    title: '2 records for an inspector',
    facts: { records: { value: 2 } },
  })
  expect(reply.files).toMatchObject([
    { name: expect.stringMatching(/^records-inspector-.+\.csv$/), type: 'text/csv' },
  ])
  expect(linesIn(reply.files[0]?.path)).toHaveLength(3)
  for (const format of ['pdf', 'json'])
    expect((await room.ask(`/record export for:inspector format:${format}`)).files).toHaveLength(1)
  expect(room.errors).toEqual([])
})

test('the paper is a PDF unless told otherwise, and keeps to its filters', async () => {
  const { room, sites } = await roomWithRecords()
  expect((await room.ask('/record export for:inspector number:R2')).files).toMatchObject([
    { type: 'application/pdf' },
  ])
  const one = await room.ask(`/record export for:inspector format:csv site:"${sites[0]}"`)
  expect(linesIn(one.files[0]?.path).join('\n')).not.toContain(sites[1])
  expect(await room.ask('/record export for:inspector from:2030-01-01')).toMatchObject({
    outcome: 'question',
    files: [],
  })
  expect(await room.ask('/record export for:inspector number:first')).toMatchObject({
    outcome: 'refusal',
    files: [],
  })
})

test('a customer’s paper asks for the property, and holds that one only', async () => {
  const { room, sites } = await roomWithRecords()
  const asked = await room.ask('/record export for:customer format:csv')
  expect(asked).toMatchObject({ outcome: 'question', files: [] })
  const choice = asked.choices.find(({ label }) => label === sites[0])
  const reply = await room.ask(`> ${choice?.n}`)
  expect(reply.files).toHaveLength(1)
  const text = linesIn(reply.files[0]?.path).join('\n')
  expect(text).toContain(`County of ${sites[0]}`)
  expect(text).not.toContain(sites[1])
})

test.each(['inspector', 'customer'])('only a lead hands out what is for:%s', async (reader) => {
  const { room } = await roomWithRecords()
  expect(await room.as('crew').ask(`/record export for:${reader}`)).toMatchObject({
    outcome: 'refusal',
    title: 'Only a lead hands this out. For whoever treats somebody: /record export for:treating',
    files: [],
  })
})

test('anybody gets at once what somebody needs who treats a person, in the answer itself', async () => {
  const { room } = await roomWithRecords()
  const reply = await room.as('crew').ask('/record export for:treating')
  expect(reply.outcome).toBe('answer')
  expect(reply.text).toMatch(/^R2 .*, number 9999999-1, active inventol 75 % ai, amount 2 oz wt$/m)
  expect(reply.text).toMatch(/if (swallowed|on skin|in eyes)|first aid in the label book/)
  expect(reply.safety.map(({ id }) => id)).toEqual(
    expect.arrayContaining(['emergency.call-911', 'emergency.poison-help']),
  )
  expect(reply.files).toHaveLength(1)
  expect(JSON.stringify(reply)).not.toContain('Ottiline')
})

test('whoever treats somebody gets the last seven days, or the days that were asked for', async () => {
  const { room } = await roomWithRecords('2026-04-01')
  expect(await room.ask('/record export for:treating')).toMatchObject({ outcome: 'question', files: [] })
  expect((await room.ask('/record export for:treating from:2026-03-01')).files).toHaveLength(1)
})

test('answers in the language of who asks; the file stays English', async () => {
  const { room } = await roomWithRecords()
  const reply = await room.as('lead', 'es').ask('/record export for:inspector format:csv')
  expect(reply.title).toBe('2 registros para un inspector')
  expect(linesIn(reply.files[0]?.path)[1]).toContain('"standing"')
})

test('what does not fit into one message can be fetched piece by piece', async () => {
  const { room } = await roomWithRecords('2026-04-02')
  await inDemo(room.bot, async (store) => {
    const [person] = await store.people.list()
    for (let at = 0; at < 1000; at++)
      await keepRecord(store, { personId: person?.id ?? 0, record: { date: '2026-05-02' } })
  })
  const whole = await room.ask('/record export for:inspector format:csv')
  expect(whole.facts.records?.value).toBe(1002)
  expect(whole.choices.map(({ label }) => label)).toEqual(['Only 2026-04', 'Only 2026-05'])
  const april = await room.ask('> 1')
  expect([april.facts.records?.value, linesIn(april.files[0]?.path).length]).toEqual([2, 3])
  expect(april.choices).toEqual([])
})
