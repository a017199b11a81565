import { expect, test } from 'vitest'
import { fillForms, press } from '../commands/fill-log.ts'
import { openRoom, type Said, type Typing } from '../commands/open-room.ts'

/**
 * A lawn of 6,000 ft² and a strip of 600 ft² on it. The invented label: at most 0.2 oz per 1,000 ft² in twelve months,
 * 28 days between treatments, at least 0.113 oz. By hand: 0.2 - 0.113 = 0.087; 0.087 × 0.6 = 0.0522 oz = 1.48 g, which
 * is 1.4 g on the crew's scale of 0.1 g, never up. What counts is what went on: 0.6 of the 0.75 gal that held 2.4 g is
 * 0.11288 oz per 1,000 ft², so that 0.08712 is left of it.
 */
const LAWN = 'site:"Ospelwick School" area:"Strip lawn"'
const mixOf = (rate: string, more: string) =>
  `/mix product:"Tarnbrask 75 WDG" rate:"${rate} oz wt/1000 ft2" ground:"600 ft2" sprayer:"Hand can" ${LAWN} weed:"yellow nutsedge" ${more}`

async function pourAndLog(type: Typing, mixed: Said): Promise<Said> {
  let said = await press(type, await press(type, mixed, 'Poured'), 'Log mix')
  for (const label of ['Washed, all went well', 'A strip']) said = await press(type, said, label)
  const look = await fillForms(type, said, { mix_drawn: '0.6 gal', treated_area: '600 ft2' })
  return press(type, look, 'Yes, record it')
}

test('the year of a strip, line by line: 0.113 in May, refused in July with 0.087 left; other ground is answered', async () => {
  const room = await openRoom()
  await room.store(async ({ sites }) => {
    const site = (await sites.list()).find(({ name }) => name === 'Ospelwick School')
    const all = site === undefined ? [] : await sites.listAreas(site.id)
    const like = all.find(({ name }) => name === 'Entrance lawn')
    if (site === undefined || like === undefined) throw new Error('The demo crew lacks its school')
    await sites.createArea({ ...like, name: 'Strip lawn', squareFeet: '6000' }, 0)
  })
  const bex = room.as('bex')

  const may = await bex(mixOf('0.113', ''))
  expect(may.outcome).not.toBe('refusal')
  const logged = await pourAndLog(bex, may)
  expect(logged.facts).toMatchObject({ record: 'R1', within_label: 'yes' })

  // Looked at twice, in June and on 6 July: at rest, not enough, and the year of this strip has 0.087 left.
  await bex(
    '/recheck plots record:R1',
    '= flag:1',
    '> 2',
    '+ 42 days',
    '/recheck rate record:R1',
    '= control:50',
  )
  const july = await bex('+ 21 days', '/recheck rate record:R1', '= control:52')
  expect(july.outcome).toBe('refusal')
  expect(july.lines).toEqual(
    expect.arrayContaining([
      'No: 0.08712 oz wt/1000 ft² is left of 0.2 oz wt/1000 ft² a year on this ground. This is 0.113 oz wt/1000 ft².',
      'At most 0.08712 oz wt/1000 ft² is left of the year: 1.4 g on 600 ft². That is below the label’s lowest rate.',
    ]),
  )

  // The same typed as a mix, of the same strip, of other spots, and of a strip that was missed in May.
  await bex('/sprayer cleaned sprayer:"Hand can"')
  const same = await bex(mixOf('0.113', 'spots:same'))
  expect([same.outcome, same.title]).toEqual([
    'refusal',
    'No: 0.08712 oz wt/1000 ft² is left of 0.2 oz wt/1000 ft² a year on this ground. This is 0.113 oz wt/1000 ft².',
  ])
  for (const ground of ['other', '"missed strip"']) {
    const answered = await bex(mixOf('0.113', `spots:${ground}`))
    expect(['answer', 'heads-up']).toContain(answered.outcome)
    expect([answered.facts.concentrate_tool, answered.facts.left_this_year]).toEqual([
      '2.4 g',
      '0.2 oz wt/1000 ft2',
    ])
  }
  expect(room.errors).toEqual([])
})
