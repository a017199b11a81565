import { expect, test } from 'vitest'
import { fillForms, press } from '../commands/fill-log.ts'
import { openRoom, type Room, type Said, type Typing } from '../commands/open-room.ts'

const LAWN = 'site:"Ospelwick School" area:"Entrance lawn"'
const SEDGE = 'group=sedge; stem_section=triangular; leaf_arrangement=3-ranked'

const mixOf = (rate: string) =>
  `/mix product:"Tarnbrask 75 WDG" rate:"${rate} oz wt/1000 ft2" ground:"600 ft2" sprayer:"Hand can" ${LAWN} weed:"yellow nutsedge" spots:same`

/** Poured and logged on 600 ft² of the lawn. */
async function pourAndLog(typing: Typing, mixed: Said): Promise<Said> {
  let said = await press(typing, await press(typing, mixed, 'Poured'), 'Log mix')
  for (const label of ['Washed, all went well', 'A strip']) said = await press(typing, said, label)
  const look = await fillForms(typing, said, { mix_drawn: '0.6 gal', treated_area: '600 ft2' })
  return press(typing, look, 'Yes, record it')
}

/** Two weeks go by, the message of that morning comes by itself, and the plot is rated. */
async function lookAfterTwoWeeks(room: Room, typing: Typing, control: number): Promise<Said> {
  const sent = await room.wait('+ 14 days')
  expect(sent.map(({ title }) => title).join('\n')).toContain('Look: Ospelwick School, Entrance lawn')
  return typing('/recheck', '> 1', `= control:${control} untreated:0`)
}

test('from a hold at the key to the year used up, line by line', async () => {
  const room = await openRoom()
  const bex = room.as('bex')

  // No seed head yet: nothing is sprayed, and a look is planned.
  const held = await press(bex, await bex(`/key ${LAWN} observed:"${SEDGE}"`), 'Stop, flag it')
  const waits = await press(bex, held, 'Wait for seed head')
  await press(bex, waits, '7 days')
  const again = await bex('+ 7 days')
  expect(again.title).toContain('Time to look again')

  // The head is there: named from that message, and the mix is one press away.
  await press(bex, again, 'Yes, go on')
  const named = await bex(
    '= observed:"seedhead=umbel-spikes; seedhead_color=straw; underground=tubers-single"',
  )
  expect(named.facts.walk).toBe(held.facts.walk)
  expect(named.title).toContain('Yellow nutsedge')
  expect((await press(bex, named, 'Products for it here')).lines.join()).toContain('Tarnbrask 75 WDG')

  // Logged, and plots from the log with one press.
  const logged = await pourAndLog(bex, await bex(mixOf('0.087')))
  expect(logged.facts).toMatchObject({ record: 'R1' })
  const plots = await press(bex, logged, 'Mark plots')
  expect(plots.fields).toContain('flag')
  const asked = await bex('= flag:1 where:"by the drive" cover:40')
  await press(bex, asked, 'Mark an untreated spot')
  const marked = await bex('= flag:U cover:40')
  expect(marked.facts).toMatchObject({ record: 'R1', due: '2026-05-25' })

  // Three visits, each asked for by a message: too early, still working, at rest.
  expect((await lookAfterTwoWeeks(room, bex, 25)).facts).toMatchObject({
    decision: 'wait',
    due: '2026-06-08',
  })
  expect((await lookAfterTwoWeeks(room, bex, 50)).facts).toMatchObject({
    decision: 'wait',
    percent_control: '50 %',
  })
  const rested = await lookAfterTwoWeeks(room, bex, 52)
  expect(rested.facts).toMatchObject({ decision: 'allowed', next_treatment: '2026-06-22' })

  // The can was emptied and rinsed weeks ago.
  await bex('/sprayer cleaned sprayer:"Hand can"')
  // One press to the mix with everything filled in, and logged from it.
  const mixed = await press(
    bex,
    await bex('/recheck rate record:R1', '= control:52 untreated:0'),
    'Mix it once more',
  )
  expect(mixed.facts).toHaveProperty('concentrate')
  const full = await pourAndLog(bex, mixed)
  expect(full.facts.record).toBe('R2')
  await press(bex, await press(bex, full, 'Mark plots'), 'Same plots as R1')

  await lookAfterTwoWeeks(room, bex, 40)
  await lookAfterTwoWeeks(room, bex, 70)
  const last = await lookAfterTwoWeeks(room, bex, 72)
  expect(last.outcome).toBe('refusal')
  expect(last.lines.join('\n')).toContain('No more than 0.2 oz per 1,000 sq ft')

  // The mix says the same.
  await bex('/sprayer cleaned sprayer:"Hand can"')
  const third = await bex(mixOf('0.113'))
  expect(third.outcome).toBe('refusal')

  // Papers: the whole history on one card, and as one page.
  const history = await bex('/recheck history record:R2')
  expect(history.lines.join('\n')).toContain('day 42: 72 % control')
  const [page] = await room.draw(await press(bex, history, 'One page for the client'))
  expect(
    Buffer.from(page ?? [])
      .subarray(0, 5)
      .toString(),
  ).toBe('%PDF-')
  expect(room.errors).toEqual([])
})
