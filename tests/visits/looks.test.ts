import { describe, expect, test } from 'vitest'
import { press } from '../commands/fill-log.ts'
import { openRoom, type Typing } from '../commands/open-room.ts'
import { keepApplication } from './keep-application.ts'

/** A strip treated on Monday, 4 May, with one plot and an untreated spot; its first look is from 18 May on. */
async function strip() {
  const room = await openRoom()
  await room.store((store) =>
    keepApplication(store, { site: 'Ospelwick School', area: 'Entrance lawn', on: '2026-05-04' }),
  )
  const type = room.as('bex')
  await type('/recheck plots record:R1', '= flag:1', '> 1', '= flag:U')
  return { room, type }
}

const open = async (type: Typing) => type('/recheck', '> 1')

describe('what else can be done with a look', () => {
  test('looked, and nothing to rate: the next one comes', async () => {
    const { type } = await strip()
    await type('+ 14 days')
    const said = await press(type, await open(type), 'Looked')
    expect(said.screen).toEqual([
      'answer: Looked: noted',
      'Look: Ospelwick School, Entrance lawn, R1',
      'Next look: Mon, Jun 1, 2026',
    ])
    expect(said.facts).toMatchObject({ record: 'R1', due: '2026-06-01' })
  })

  test('another day: only workdays are offered, and no reminder comes before it', async () => {
    const { type } = await strip()
    await type('+ 14 days')
    const asked = await press(type, await open(type), 'Another day')
    expect(asked.choices).not.toContain('Sat, May 23, 2026')
    const moved = await press(type, asked, 'Thu, May 21, 2026')
    expect(moved.facts.due).toBe('2026-05-21')
    expect((await type('+ 2 days')).facts.due).toBe(0)
    expect((await type('+ 1 day')).title).toContain('Look: Ospelwick School')
  })

  test('skipped only with a reason, which stands in the history', async () => {
    const { type } = await strip()
    await type('+ 14 days')
    const asked = await press(type, await open(type), 'Skip it')
    expect(asked.fields).toEqual(['reason'])
    expect((await type('= reason:" "')).lines).toContain('Say in a few words why it is skipped.')
    expect((await type('= reason:"gate was locked"')).title).toBe('Skipped: noted')
    const history = await type('/recheck history record:R1')
    expect(history.lines.join('\n')).toContain('skipped, gate was locked (Bex Yolvarren)')
  })

  test('handed over: it is due for the other, and no longer for whoever had it', async () => {
    const { room, type } = await strip()
    await type('+ 14 days')
    const asked = await press(type, await open(type), 'Hand over')
    await press(type, asked, 'Nila Quessarn')
    expect((await type('/recheck')).facts.due_count).toBe(0)
    expect((await room.as('nila')('/recheck')).facts.due_count).toBe(1)
  })

  test('what the crew has let go by, and what is due at a site, everybody may see', async () => {
    const { room, type } = await strip()
    await type('+ 14 days')
    expect((await room.as('nila')('/recheck site:"Ospelwick School"')).facts.due_count).toBe(1)
    expect((await room.as('nila')('/recheck overdue:yes')).facts.due_count).toBe(0)
    await type('+ 7 days')
    expect((await room.as('nila')('/recheck overdue:yes')).facts).toMatchObject({
      due_count: 1,
      overdue_count: 1,
    })
  })

  test('nobody is sent back to an application whose record was voided', async () => {
    const { room, type } = await strip()
    await room.store(async (store) => {
      const row = await store.records.find(1)
      if (row === undefined) throw new Error('no record')
      await store.records.restate(row.id, { ...row, voidedAtMs: 1 }, [])
    })
    expect((await type('+ 14 days')).facts.due).toBe(0)
    expect((await type('/recheck')).title).toBe('No looks are planned')
  })
})

describe('ratings', () => {
  test('an untreated spot that is brown too cannot be compared with', async () => {
    const { type } = await strip()
    const said = await type('+ 28 days', '/recheck rate record:R1', '= control:60 untreated:40')
    expect(said.screen.slice(0, 2)).toEqual([
      'heads-up: This cannot be judged today',
      'The untreated spot is brown too, from frost, drought or drift. This cannot be judged.',
    ])
    expect(said.facts).not.toHaveProperty('percent_control')
  })

  test('a deciding look that cannot be judged comes again in a week, with the reason, or on a day that is picked', async () => {
    const { type } = await strip()
    await type('+ 28 days', '/recheck rate record:R1', '= control:60 untreated:0')
    const blind = await type('+ 21 days', '/recheck rate record:R1', '= control:62 untreated:40')
    expect(blind.screen).toEqual([
      'heads-up: This cannot be judged today',
      'The untreated spot is brown too, from frost, drought or drift. This cannot be judged.',
      'The visit on Mon, Jun 22, 2026 cannot be judged.',
      'Look again on Mon, Jun 29, 2026, since today cannot be judged; or pick another day.',
    ])
    expect(blind.facts).toMatchObject({ decision: 'wait', due: '2026-06-29' })
    const moved = await press(type, await press(type, blind, 'Another day'), 'Thu, Jun 25, 2026')
    expect(moved.facts.due).toBe('2026-06-25')
    const reminder = await type('+ 3 days')
    expect(reminder.lines).toContain('Once more: the look on Mon, Jun 22, 2026 could not be judged.')
    const judged = await type('= control:63 untreated:0')
    expect(judged.facts.decision).not.toBe('wait')
  })

  test('between two windows a rating is kept beside the looks, and the later look stays to be taken', async () => {
    const { type } = await strip()
    await type('+ 14 days', '/recheck rate record:R1', '= control:20 untreated:0')
    const early = await type('+ 9 days', '/recheck rate record:R1')
    expect(early.lines).toContain(
      'The next look counts from Mon, Jun 1, 2026. What you rate now is kept as an extra rating.',
    )
    expect(early.choices).toEqual(['Another day', 'Hand over', 'Skip it', 'History'])
    const kept = await type('= control:45 untreated:0')
    expect(kept.lines).toContain('Kept as an extra rating: the planned look stays.')
    expect(kept.facts).toMatchObject({ percent_control: '45 %', decision: 'wait', due: '2026-06-01' })
    const history = await type('/recheck history record:R1')
    expect(history.lines).toEqual(
      expect.arrayContaining([
        'Wed, May 27, 2026, day 23: 45 % control, lawn 9: no damage (Bex Yolvarren)',
        'Mon, Jun 1, 2026: Score it (to come)',
      ]),
    )
    const score = await type('+ 5 days')
    expect(score.title).toContain('Look: Ospelwick School')
  })

  test('before the first window a rating decides nothing and uses up no look', async () => {
    const { type } = await strip()
    const kept = await type('+ 4 days', '/recheck rate record:R1', '= control:95 untreated:0')
    expect(kept.facts).toMatchObject({ decision: 'wait', due: '2026-05-18' })
    expect((await type('+ 10 days')).title).toContain('Look: Ospelwick School')
  })

  test('worse than the untreated spot is shown below zero, not hidden', async () => {
    const { type } = await strip()
    const said = await type('+ 28 days', '/recheck rate record:R1', '= control:0 untreated:10')
    // Abbott by hand: (90 - 100) / 90.
    expect(said.facts.percent_control).toBe('-11.1111111111 %')
    expect(said.lines).toContain(
      'A plot looks worse than the untreated spot. That is shown as it is, below zero.',
    )
  })

  test('a hurt lawn holds a second application', async () => {
    const { type } = await strip()
    await type('+ 28 days', '/recheck rate record:R1', '= control:50 untreated:0')
    const said = await type('+ 14 days', '/recheck rate record:R1', '= control:52 untreated:0 injury:4')
    expect(said.lines).toContain('The lawn is hurt: step 4. The crew’s limit is step 6.')
    expect(['hold', 'refusal']).toContain(said.outcome)
  })

  test('what is no percentage is said, and the form comes back as it was', async () => {
    const { type } = await strip()
    const said = await type('+ 28 days', '/recheck rate record:R1', '= control:half untreated:0')
    expect(said.lines).toEqual([
      '“half” is no percentage. Type 0 to 100, or 70/15 with the weed cover behind it.',
    ])
    expect(said.shown.presented.form?.fields[1]?.value).toBe('0')
  })

  test('without plots one press marks them', async () => {
    const room = await openRoom()
    await room.store((store) =>
      keepApplication(store, { site: 'Ospelwick School', area: 'Entrance lawn', on: '2026-05-04' }),
    )
    const type = room.as('bex')
    const asked = await type('/recheck rate record:R1')
    expect(asked.choices).toEqual(['Mark plots'])
    expect((await type('> 1')).fields).toContain('flag')
  })
})

describe('the schedule', () => {
  test('leads change a window, the work and the limits; others do not', async () => {
    const { room } = await strip()
    expect((await room.as('bex')('/recheck schedule')).outcome).toBe('refusal')
    const lead = room.as('lead')
    const changed = await lead(
      '/recheck schedule weed:sedge look:first days:"10 to 20" work_days:Mon-Sat hours:"6:30 to 15:00" days_off:"2026-07-03" round:"every 14 days from 2026-05-04" done:95',
    )
    expect(changed.title).toBe('Changed. Looks that are planned already stay.')
    expect(changed.lines).toEqual(
      expect.arrayContaining([
        'Sedges, days: first signs 10 to 20, score 28 to 34, and decide 42 to 49. Judged from day 28.',
        'Messages come Mon, Tue, Wed, Thu, Fri, and Sat, 06:30 to 15:00.',
        'Days off: Fri, Jul 3, 2026',
        'Round: every 14 days from Mon, May 4, 2026',
        'Done from 95 % control. Lawn worse than step 6 holds a second application.',
      ]),
    )
  })

  test('windows that overlap, and words that are no days, change nothing', async () => {
    const { room } = await strip()
    const lead = room.as('lead')
    const apart = await lead('/recheck schedule weed:sedge look:first days:"10 to 40"')
    expect(apart.lines[0]).toContain('one after the other')
    const wrong = await lead('/recheck schedule work_days:sometimes hours:late')
    expect(wrong.screen).toEqual([
      'refusal: That is not changed',
      '“sometimes” are no days of the week. Type them like Mon-Fri.',
      '“late” are no hours. Type them like 7 am to 5 pm.',
    ])
  })

  test('a press on a kind of weed opens its windows, filled in; no name is typed', async () => {
    const { room } = await strip()
    const lead = room.as('lead')
    const all = await lead('/recheck schedule')
    const asked = await lead(`> ${all.choices.indexOf('Sedges') + 1}`)
    expect(asked.shown.presented.form?.fields.map(({ label, value }) => [label, value])).toEqual([
      ['First signs', '14-20'],
      ['Score it', '28-34'],
      ['Decide', '42-49'],
    ])
    const apart = await lead('= first:"14 to 30" score:soon')
    expect(apart.lines).toEqual(['“soon” are no days after an application. Type them like 7 to 14.'])
    expect((await lead('= first:"14 to 30" score:"28 to 34"')).lines[0]).toContain('one after the other')
    const kept = await lead('= first:"10 to 20" score:"28 to 34"')
    expect(kept.title).toBe('Changed. Looks that are planned already stay.')
    expect(kept.lines).toContain(
      'Sedges, days: first signs 10 to 20, score 28 to 34, and decide 42 to 49. Judged from day 28.',
    )
    const same = await lead('> 5', '= first:"10 to 20"')
    expect(same.title).toBe('When to look')
    expect(room.errors).toEqual([])
  })
})

describe('a plant that was held', () => {
  const held = async () => {
    const room = await openRoom()
    const type = room.as('bex')
    const walk = await type('/key site:"Ospelwick School" area:"Entrance lawn" observed:"group=sedge"')
    return { type, when: await press(type, await press(type, walk, 'Stop, flag it'), 'Wait for seed head') }
  }

  test('is looked at again when the degree days are there, on a workday morning', async () => {
    const { type, when } = await held()
    await press(type, when, 'By degree days')
    // 180 degree days at 18 a day are ten days: Thursday, 14 May.
    const planned = await type('= lacking:180 daily:18')
    expect(planned.facts.due).toBe('2026-05-14T11:00:00.000Z')
    expect((await type('/recheck')).lines[0]).toContain('Thu, May 14, 2026 (coming)')
    expect((await type('+ 10 days')).title).toContain('Time to look again')
  })

  test('is looked at again when the days that were pasted and counted say so', async () => {
    const { type, when } = await held()
    const figures = await press(type, when, 'By degree days')
    const asked = await press(type, figures, 'Count from highs and lows')
    expect(asked.fields).toEqual(['wanted', 'method', 'base', 'cap', 'temperatures'])
    // By hand: (78 + 62) / 2 - 50 = 20 a day, 80 by 3 May; 120 of 200 lacking are six days after it: 9 May, a Saturday.
    const days = ['04-30', '05-01', '05-02', '05-03'].map((day) => `2026-${day} 78 62`).join('; ')
    const form = `wanted:200 method:average base:"50 F" temperatures:"${days}"`
    const planned = await type(`= ${form}`)
    expect(planned.lines[0]).toBe('80 of 200 degree days by Sun, May 3, 2026, about 20 a day now.')
    expect(planned.facts.due).toBe('2026-05-11T11:00:00.000Z')
    expect((await type('+ 7 days')).title).toContain('Time to look again')
  })

  test.each([
    ['no threshold', 'wanted:soon method:average base:"50 F" temperatures:"2026-05-03 78 62"'],
    ['no warmth', 'wanted:200 method:average base:"50 F" temperatures:"2026-05-03 48 32"'],
    ['no upper limit', 'wanted:200 method:capped base:"50 F" temperatures:"2026-05-03 78 62"'],
    ['no days', 'wanted:200 method:average base:"50 F" temperatures:"warm"'],
  ])('what cannot be counted comes back as it was typed: %s', async (_, form) => {
    const { type, when } = await held()
    await press(type, await press(type, when, 'By degree days'), 'Count from highs and lows')
    const said = await type(`= ${form}`)
    expect(said.outcome).toBe('question')
    expect(said.lines.length).toBeGreaterThan(0)
    expect(said.shown.presented.form?.fields.at(-1)?.value).toContain(
      form.includes('warm') ? 'warm' : '2026-05-03',
    )
  })

  test('numbers that make no day are asked for once more', async () => {
    const { type, when } = await held()
    await press(type, when, 'By degree days')
    expect((await type('= lacking:180 daily:0')).lines).toEqual([
      'Two numbers, such as 180 and 18. At most 180 days ahead.',
    ])
  })
})

test.each([
  ['2026-05-01', 'Fri, May 1, 2026 is past. For “seeding”, give the day on which seed or sod is planned.'],
  ['someday', 'Cannot read the day “someday”'],
])('a day of seeding that is none is refused: %s', async (seeding, title) => {
  const room = await openRoom()
  await room.store((store) =>
    keepApplication(store, { site: 'Ospelwick School', area: 'Entrance lawn', on: '2026-05-04' }),
  )
  const type = room.as('bex')
  const said = await type(`/recheck plots record:R1 seeding:"${seeding}"`)
  expect(said.outcome).toBe('refusal')
  expect(said.title).toContain(title)
  expect((await type('/recheck plots record:R1 seeding:2026-09-01')).outcome).toBe('question')
})
