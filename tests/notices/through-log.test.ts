import { expect, test } from 'vitest'
import { fillForms, press } from '#tests/commands/fill-log.ts'
import { openRoom } from '#tests/commands/open-room.ts'

const MIX =
  '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn" weed:"yellow nutsedge" spots:other'

test('a job that is logged tells what waits, takes from the stock, and stands in the week and in the rain', async () => {
  const room = await openRoom()
  const bex = room.as('bex')
  await bex('/stock count product:"Tarnbrask 75 WDG" amount:"20 oz"')
  await bex(MIX, '> 1')
  let said = await bex('> 1')
  for (const label of ['Washed, all went well', 'A strip']) said = await press(bex, said, label)
  await press(bex, await fillForms(bex, said, {}), 'Yes, record it')
  const holds = await bex('/notices')
  expect(
    holds.lines.some((line) => line.startsWith('Plimmet Street House, Front lawn: No mowing until')),
  ).toBe(true)
  const left = (await bex('/stock show product:"Tarnbrask 75 WDG"')).lines[0] ?? ''
  const ounces = Number(/^([\d.]+) oz wt/.exec(left)?.[1])
  expect(ounces).toBeGreaterThan(19)
  expect(ounces).toBeLessThan(20)
  const week = await room.as('odalys')('/summary')
  expect(week.facts.jobs).toBe(1)
  await bex('+ 2 hours')
  const rain = await bex('/rained record:R1 hours:1')
  expect([rain.outcome, rain.facts.rain_free]).toEqual(['heads-up', 'inside'])
  expect(room.errors).toEqual([])
})
