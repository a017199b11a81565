import { expect, test } from 'vitest'
import { openRoom, type Room } from '../commands/open-room.ts'
import { type Applied, keepApplication } from './keep-application.ts'

/** Monday, 4 May 2026, 9 in the morning where the demo crew works. */
const MAY = '2026-05-04'
const STRIP: Applied = {
  site: 'Ospelwick School',
  area: 'Entrance lawn',
  on: MAY,
  ft2: '600',
  parts: { sprayer: 'Hand can' },
}

const keep = (room: Room, applied: Partial<Applied> = {}) =>
  room.store((store) => keepApplication(store, { ...STRIP, ...applied }))

const PLOT = '= flag:1 where:"by the drive" size:"3 ft x 3 ft" cover:40'
const UNTREATED = '= flag:U where:"behind the sign" cover:40'

/** A room with a strip of nutsedge treated this morning, two plots and an untreated spot marked. */
async function strip(applied: Partial<Applied> = {}) {
  const room = await openRoom()
  await keep(room, applied)
  const type = room.as('bex')
  const marked = await type('/recheck plots record:R1', PLOT, '> 3', '= flag:2 cover:40', '> 1', UNTREATED)
  return { room, type, marked }
}

test('plots: the form of the first at once, then the untreated spot, and the day of the first look', async () => {
  const room = await openRoom()
  await keep(room)
  const type = room.as('bex')
  const form = await type('/recheck plots record:R1')
  expect(form.fields).toEqual(['flag', 'where', 'size', 'cover', 'photo'])
  expect(form.screen[0]).toBe('question: Mark a plot: Ospelwick School, Entrance lawn, R1')
  const one = await type(PLOT)
  expect(one.screen).toEqual([
    'question: One plot marked at Ospelwick School, Entrance lawn, R1. Is there an untreated spot?',
    'Without one nobody can tell the product from the weather.',
    'Plot 1: by the drive, 3 ft x 3 ft, and 40 % weeds before',
    'First look: Mon, May 18, 2026 (any day from Mon, May 18, 2026 to Sun, May 24, 2026). A reminder comes that morning.',
  ])
  expect(one.facts).toMatchObject({ record: 'R1', plots: 1, due: '2026-05-18' })
  const marked = await type('> 1', UNTREATED)
  expect(marked.outcome).toBe('answer')
  expect(marked.lines).toContain('Untreated U: behind the sign and 40 % weeds before')
  expect(room.errors).toEqual([])
})

test('a client who allows no untreated spot is a note, not a hold', async () => {
  const room = await openRoom()
  await keep(room)
  const said = await room.as('bex')('/recheck plots record:12', '/recheck plots record:1', PLOT, '> 2')
  expect(said.outcome).toBe('answer')
  expect(said.lines).toContain('No untreated spot: weather and season may have done some of it.')
})

test('without flags the whole area is rated as one plot', async () => {
  const room = await openRoom()
  await keep(room)
  const said = await room.as('bex')('/recheck plots record:R1', '> 1')
  expect(said.lines).toContain('Plot whole area: 6200 ft2')
})

test('what is wrong with a plot is said, and the form comes back filled in', async () => {
  const { type } = await strip()
  const said = await type('/recheck plots record:R1', '= flag:1 where:"at the gate" cover:140')
  expect(said.screen).toEqual([
    'question: Mark a plot: Ospelwick School, Entrance lawn, R1',
    'There is a flag 1 already.',
    '“140” is no percentage. Type 0 to 100, or 70/15 with the weed cover behind it.',
  ])
  expect(said.shown.presented.form?.fields[1]?.value).toBe('at the gate')
})

test('what is wrong with a rating is said, all of it, and no lawn is called unhurt by a slip', async () => {
  const { room, type } = await strip()
  await type('+ 28 days')
  const said = await type(
    '/recheck rate record:R1',
    '= control:"70, 80" untreated:few injury:20 seen:"rain, regrown"',
  )
  expect(said.screen).toEqual([
    'question: Look: Ospelwick School, Entrance lawn, R1',
    '“few” is no percentage. Type 0 to 100, or 70/15 with the weed cover behind it.',
    '“20” is no step of the lawn’s scale. Type 1 to 9: 9 is unhurt, 1 is dead.',
    '“regrown” cannot be ticked here. Type regrowth, seedlings, rain, and mown.',
  ])
  const kept = await type('= untreated:0 injury:4 seen:"rain, regrowth"')
  expect(kept.facts).toMatchObject({ percent_control: '75 %', injury: 4 })
  expect(room.errors).toEqual([])
})

test('a season: nothing before its window, the first look decides nothing, then wait, then allowed at rest', async () => {
  // 0.087 oz in May, so that the label's 0.113 oz is left of its 0.2 oz a year.
  const { room, type } = await strip({ rate: '0.087' })

  const early = await type('+ 8 days')
  expect(early.facts.due, 'nothing is due before the first window').toBe(0)
  const reminder = await type('+ 6 days')
  expect(reminder.screen[0]).toBe('question: Look: Ospelwick School, Entrance lawn, R1')
  expect(reminder.fields).toEqual(['control', 'untreated', 'injury', 'seen', 'photo'])
  const first = await type('= control:"25, 30" untreated:0 seen:rain')
  expect(first.screen.slice(0, 2)).toEqual([
    'answer: 28 % control: wait until Mon, Jun 1, 2026',
    'That is poor, against the untreated spot (Abbott).',
  ])
  expect(first.facts).toMatchObject({
    record: 'R1',
    percent_control: '27.5 %',
    decision: 'wait',
    due: '2026-06-01',
  })

  const moving = await type('+ 14 days', '= control:"50, 60" untreated:0')
  expect(moving.lines).toContain('Still working: 28 % before, 55 % now.')
  expect(moving.facts).toMatchObject({ decision: 'wait', due: '2026-06-15' })

  const second = await type('+ 14 days', '= control:"50, 65" untreated:0')
  expect(second.facts).toMatchObject({ decision: 'allowed', next_treatment: '2026-06-15' })
  expect(second.choices[0]).toBe('Mix it once more')
  expect(second.lines).toContain('It no longer moves: 3 points since the visit before.')
  // 4 May + 28 days; 0.2 - 0.087 oz. The label of this product counts no treatments.
  expect(second.lines).toEqual(
    expect.arrayContaining([
      'Label: 28 days between treatments, so from Mon, Jun 1, 2026.',
      'Left this year on this ground: 0.113 oz wt/1000 ft² of 0.2 oz wt/1000 ft².',
    ]),
  )
  expect(second.facts.left_this_year).toBe('0.113 oz wt/1000 ft2')
  expect(room.errors).toEqual([])
})

test('a second rating on the same day puts the first right, and uses up no later look', async () => {
  const { type } = await strip()
  const first = await type('+ 14 days', '= control:"25, 25" untreated:0')
  expect(first.facts.due).toBe('2026-06-01')
  const again = await type('/recheck rate record:R1')
  expect(again.lines).toContain('Looked at today already. Rate again, and your last word counts.')
  expect(again.lines).toContain('Next look: Mon, Jun 1, 2026')
  expect(again.choices).toEqual(['Another day', 'Hand over', 'History'])
  const right = await type('= control:"35, 35" untreated:0')
  expect(right.facts).toMatchObject({ percent_control: '35 %', decision: 'wait', due: '2026-06-01' })
  const history = await type('/recheck history record:R1')
  expect(history.lines.filter((line) => line.includes('day 14'))).toHaveLength(1)
  expect((await type('+ 14 days')).screen[0]).toBe('question: Look: Ospelwick School, Entrance lawn, R1')
})

test('whoever takes days off is told which looks are theirs then', async () => {
  const { type } = await strip()
  const off = await type('/setup me days_off:"5/18 to 5/22"')
  expect(off.lines.slice(-2)).toEqual([
    'Off: Mon, May 18, 2026 to Fri, May 22, 2026',
    '1 look is yours on those days. Hand over with /recheck due.',
  ])
  expect((await type('/setup me days_off:5/19')).lines.at(-1)).toBe('Off: Tue, May 19, 2026')
})

test('the press to the mix carries product, rate, ground, weed and sprayer', async () => {
  const { type } = await strip({ rate: '0.087' })
  await type('+ 28 days', '/recheck rate record:R1', '= control:"50, 55" untreated:0')
  const decided = await type('+ 14 days', '= control:"50, 57" untreated:0')
  expect(decided.facts.decision).toBe('allowed')
  const mixed = await type('> 1')
  expect(mixed.shown.answered.reply.facts.map(({ name }) => name)).toContain('concentrate')
  expect(mixed.lines).toContain('Covers 600 ft² at 1 gal/1000 ft².')
})

test('the yearly limit binds the strip that was treated, and no other ground', async () => {
  // 0.113 oz in May on a strip of 600 ft² of the lawn; at most 0.2 oz per 1,000 ft² in twelve months.
  const { room, type } = await strip()
  const july = await type(
    '+ 42 days',
    '/recheck rate record:R1',
    '= control:"50, 55" untreated:0',
    '+ 21 days',
    '/recheck rate record:R1',
    '= control:"52, 57" untreated:0',
  )
  expect(july.outcome).toBe('refusal')
  expect(july.screen[0]).toBe('refusal: 55 % control: no second treatment')
  expect(july.lines).toEqual(
    expect.arrayContaining([
      'No: 0.087 oz wt/1000 ft² is left of 0.2 oz wt/1000 ft² a year on this ground. This is 0.113 oz wt/1000 ft².',
      'Label, page 3: “No more than 0.2 oz per 1,000 sq ft (8.7 oz per acre) in any 12 months.”',
      'At most 0.087 oz wt/1000 ft² is left of the year: 1.4 g on 600 ft². That is below the label’s lowest rate.',
    ]),
  )
  expect(july.choices).not.toContain('Mix it once more')

  // A strip beside it that was missed in May: other ground, so nothing of its year is used.
  await keep(room, {
    on: '2026-07-06',
    parts: { sprayer: 'Hand can', coverage: 'strip', sameGround: 'missed strip' },
  })
  const missed = await type(
    '/recheck plots record:R2',
    '= flag:9',
    '> 2',
    '+ 42 days',
    '/recheck rate record:R2',
    '= control:50',
  )
  expect(missed.lines.join('\n')).not.toContain('0.226')
  const other = await type('+ 7 days', '/recheck rate record:R2', '= control:52')
  expect(other.lines).toContain(
    'No: 0.087 oz wt/1000 ft² is left of 0.2 oz wt/1000 ft² a year on this ground. This is 0.113 oz wt/1000 ft².',
  )
})
