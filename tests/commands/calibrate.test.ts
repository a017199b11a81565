import { describe, expect, test } from 'vitest'
import { openRoom, type Said } from './open-room.ts'

const exact = (answer: Said, name: string) => {
  const found = answer.shown.answered.reply.facts.find((one) => one.name === name)
  return found === undefined ? undefined : [Number(Number(found.value).toFixed(2)), found.unit]
}

const lines = [
  {
    line: '/calibrate method:hand ground:"250 ft2" used:"0.5 gal"',
    name: 'output',
    found: [2, 'gal/1000 ft2'],
    source: 'Colorado State University CEPEP Fact Sheet 204: 250 ft2, times four',
  },
  {
    line: '/calibrate method:ounce spacing:"20 in"',
    name: 'course_length',
    found: [204.19, 'ft'],
    source: 'Ohio State University Extension Bulletin 817-00, Table 1: 204 ft',
  },
  {
    line: '/calibrate method:boom flow:"0.4 gal/min" speed:"4 mph" spacing:"20 in"',
    name: 'output',
    found: [29.7, 'gal/acre'],
    source: 'by hand: 5,940 × 0.4 ÷ (4 × 20)',
  },
  {
    line: '/calibrate method:boom flow:"1.5 gal/min" output:"30 gal/acre" spacing:"30 in"',
    name: 'speed',
    found: [9.9, 'mph'],
    source: 'Montana State University Extension MT 2000-14',
  },
  {
    line: '/calibrate method:speed distance:"11 ft" time:"3 s"',
    name: 'speed',
    found: [2.5, 'mph'],
    source: 'The Math Forum, converting seconds to miles an hour (2000)',
  },
  {
    line: '/calibrate method:refill used:"12 gal" distance:"660 ft" width:"10 ft"',
    name: 'output_also',
    found: [79.2, 'gal/acre'],
    source: 'Florida study guide p. 213, refill method: 79.2 gallons per acre',
  },
  {
    line: '/calibrate method:spreader target:"0.9 lb/1000 ft2" analysis:"25 %"',
    name: 'product_rate',
    found: [3.6, 'lb/1000 ft2'],
    source: 'turf professional worksheet: 0.9 lb N at 25 % is 3.6 lb',
  },
] as const

test.each(lines)('$line ($source)', async ({ line, name, found }) => {
  const type = (await openRoom()).as('bex')
  const answer = await type(line)
  expect(exact(answer, name)).toEqual(found)
  expect(answer.outcome).not.toBe('refusal')
})

describe('an output that is kept', () => {
  test('is what /mix works with from then on', async () => {
    const type = (await openRoom()).as('hob')
    const before = await type('/mix rate:"1 fl oz/1000 ft2" tank:"4 gal" sprayer:Backpack')
    expect(before.outcome).toBe('hold')
    await type('/calibrate method:hand ground:"500 ft2" used:"0.5 gal" sprayer:Backpack')
    const kept = await type('> 1')
    expect(kept.title).toBe('1 gal/1000 ft² is kept for Hob Stowbrimmer with Backpack')
    const after = await type('/mix rate:"1 fl oz/1000 ft2" tank:"4 gal" sprayer:Backpack')
    expect(exact(after, 'concentrate_exact')).toEqual([4, 'fl oz'])
  })

  test('is void once tip or pressure change', async () => {
    const type = (await openRoom()).as('odalys')
    await type('/calibrate method:hand ground:"500 ft2" used:"0.5 gal" sprayer:Backpack')
    await type('> 1')
    await type(
      '/sprayer add name:Backpack tank:"4 gal" marks:"0.5 gal" tip:"flat fan, blue ring" pressure:"25 psi"',
    )
    const after = await type('/mix rate:"1 fl oz/1000 ft2" tank:"4 gal" sprayer:Backpack')
    expect(after.outcome).toBe('question')
    expect(after.title).toContain('No output measured')
  })

  test('runs that differ too much are a hold, and cannot be kept', async () => {
    const type = (await openRoom()).as('bex')
    const answer = await type('/calibrate method:hand ground:"250 ft2" used:"0.4 gal; 0.6 gal"')
    expect(answer.outcome).toBe('hold')
    expect(answer.choices).toEqual([])
  })
})

test('who names no method is offered them all, with the easy one explained', async () => {
  const type = (await openRoom()).as('bex')
  const asked = await type('/calibrate')
  expect(asked.outcome).toBe('question')
  expect(asked.choices).toHaveLength(9)
  const figures = await type('> 1')
  expect(figures.fields).toEqual(['ground', 'used'])
  const answer = await type('= ground:"250 ft2" used:"0.25 gal"')
  expect(exact(answer, 'output')).toEqual([1, 'gal/1000 ft2'])
})

test.each(['ground:"0 ft2"', 'ground:"-4 ft2"', 'ground:"wide"', 'ground:"🌱"'])(
  'nonsense is a clear sentence and nothing is kept: %s',
  async (ground) => {
    const type = (await openRoom()).as('bex')
    const answer = await type(`/calibrate method:hand ${ground} used:"0.5 gal"`)
    expect(answer.outcome).toBe('refusal')
    expect(answer.lines.join(' ')).toMatch(/ground/)
    expect(answer.choices).toEqual([])
  },
)
