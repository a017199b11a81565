import { describe, expect, test } from 'vitest'
import { drawPicture } from '#src/pictures/draw-picture.ts'
import { loadWords } from '#src/words/load.ts'
import { speak } from '#src/words/speak.ts'
import { openRoom, type Said } from './open-room.ts'

const words = loadWords()

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
    found: [204.2, 'ft'],
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
    line: '/calibrate method:pressure output:"20 gal/acre" pressure:"20 psi" to:"30 gal/acre"',
    name: 'pressure',
    found: [45, 'psi'],
    source: 'Oklahoma State University Extension, pressure law, by hand: 20 × (30 ÷ 20)²',
  },
  {
    line: '/calibrate method:pressure output:"20 gal/acre" pressure:"20 psi" to:"80 psi"',
    name: 'output',
    found: [40, 'gal/acre'],
    source: 'Oklahoma State University Extension: four times the pressure to double the flow',
  },
  {
    line: '/calibrate method:hand ground:"25 ft by 10 ft" used:"half a gallon"',
    name: 'output',
    found: [2, 'gal/1000 ft2'],
    source: 'Colorado State University CEPEP Fact Sheet 204: 250 ft2, times four',
  },
  {
    line: '/calibrate method:pans caught:"-6 pies 5; -3 pies 8; 0 10; 3 pies 8; 6 pies 5"',
    name: 'swath',
    found: [12, 'ft'],
    source: 'by hand: half of the center pan stands six feet to either side',
  },
  {
    line: '/calibrate method:speed distance:"11 ft" time:"3 s"',
    name: 'speed',
    found: [2.5, 'mph'],
    source: 'The Math Forum, converting seconds to miles an hour (2000)',
  },
  {
    line: '/calibrate method:speed distance:"200 ft" time:"34 s"',
    name: 'speed',
    found: [4.01, 'mph'],
    source: 'by hand: 200 ÷ 34 × 60 ÷ 88',
  },
  {
    line: '/calibrate method:hand ground:"250 ft2" used:"0.5 gal"',
    name: 'output_also',
    found: [87.12, 'gal/acre'],
    source: 'by hand: 2 × 43.56',
  },
  {
    line: '/calibrate method:ounce caught:"16 fl oz; 16.5 fl oz; 15.5 fl oz"',
    name: 'output',
    found: [16, 'gal/acre'],
    source: 'by hand: on 1/128 acre an ounce is a gallon an acre',
  },
  {
    line: '/calibrate method:boomless flow:"3 gal/min" speed:"5 mph" width:"30 ft"',
    name: 'output',
    found: [9.9, 'gal/acre'],
    source: 'by hand: 5,940 × 3 ÷ (5 × 360)',
  },
  {
    line: '/calibrate method:boom output:"30 gal/acre" speed:"4 mph" spacing:"20 in"',
    name: 'flow',
    found: [0.4, 'gal/min'],
    source: 'by hand: 30 × 4 × 20 ÷ 5,940',
  },
  {
    line: '/calibrate method:boom caught:"12.8 oz" time:"15 s" speed:"4 mph" spacing:"20 in"',
    name: 'output',
    found: [29.7, 'gal/acre'],
    source: 'by hand: 12.8 fl oz in 15 s is 0.4 gal a minute',
  },
  {
    line: '/calibrate method:nozzles caught:"40, 41, 39, 40 fl oz"',
    name: 'nozzle_average',
    found: [40, 'fl oz'],
    source: 'by hand',
  },
  {
    line: '/calibrate method:nozzles caught:"12.8, 12.8 oz" time:"15 s" speed:"4 mph" spacing:"20 in"',
    name: 'output',
    found: [29.7, 'gal/acre'],
    source: 'by hand, as above',
  },
  {
    line: '/calibrate method:pressure flow:"0.4 gal/min" pressure:"20 psi" to:"80 psi"',
    name: 'flow',
    found: [0.8, 'gal/min'],
    source: 'by hand: four times the pressure is twice the flow',
  },
  {
    line: '/calibrate method:pressure flow:"0.4 gal/min" pressure:"20 psi" to:"0.8 gal/min"',
    name: 'pressure',
    found: [80, 'psi'],
    source: 'by hand: the same read the other way',
  },
  {
    line: '/calibrate method:pace output:"30 gal/acre" speed:"4 mph" to:"6 mph"',
    name: 'output',
    found: [20, 'gal/acre'],
    source: 'by hand: output times speed stays the same',
  },
  {
    line: '/calibrate method:pace output:"30 gal/acre" speed:"4 mph" to:"20 gal/acre"',
    name: 'speed',
    found: [6, 'mph'],
    source: 'by hand: the same read the other way',
  },
  {
    line: '/calibrate method:pans caught:"-6 ft 0; -4 ft 5; -2 ft 10; 0 10; 2 ft 10; 4 ft 5; 6 ft 0"',
    name: 'swath',
    found: [8, 'ft'],
    source: 'by hand: half of the center pan stands at 4 ft on both sides',
  },
  {
    line: '/calibrate method:spots used:"1 gal" spots:"32" ground:"1 ft2"',
    name: 'per_spot',
    found: [4, 'fl oz'],
    source: 'by hand: 128 ÷ 32',
  },
  {
    line: '/calibrate method:spreader before:"50 lb; 46.4 lb" after:"46.4 lb; 42.8 lb" ground:"1000 ft2" target:"0.9 lb/1000 ft2" analysis:"25"',
    name: 'spreader_rate',
    found: [3.6, 'lb/1000 ft2'],
    source: 'by hand: 3.6 lb fell each time',
  },
  {
    line: '/calibrate method:hand ground:"250 ft2" used:"0.5 gal" unit:"L/ha"',
    name: 'output',
    found: [814.92, 'L/ha'],
    source: 'by hand: 87.12 × 3.785411784 ÷ 0.40468564224',
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

  test.each([
    ['/calibrate method:hand ground:"250 ft2" used:"5000 gal"', '20,000 gal/1000 ft²', 'gallons for quarts'],
    [
      '/calibrate method:boom flow:"40 gal/min" speed:"0.4 mph" spacing:"20 in"',
      '29,700 gal/acre',
      'two slips',
    ],
    [
      '/calibrate method:ounce spacing:"20 in" caught:"0.5 fl oz"',
      '0.5 gal/acre',
      'a catch that was too short',
    ],
  ])('a catch that cannot be is a hold, and cannot be kept: %s', async (line, output) => {
    const said = await (await openRoom()).as('bex')(line)
    expect(said.outcome).toBe('hold')
    expect(said.title).toMatch(new RegExp(`^${output} cannot be: .*catch again$`))
    expect(said.lines[0]).toBe(`This is not kept: ${output}.`)
    expect(said.choices).toEqual([])
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
  expect(asked.choices).toHaveLength(12)
  expect(asked.lines[1]).toBe('1. Measure a piece of lawn, such as 25 ft by 10 ft.')
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

describe('figures alone tell the method', () => {
  test.each([
    ['ground:"250 ft2" used:"0.5 gal"', 'output'],
    ['distance:"200 ft" time:"34 s"', 'speed'],
    ['used:"1 gal" spots:"32"', 'per_spot'],
    ['flow:"0.4 gal/min" speed:"4 mph" spacing:"20 in"', 'output'],
  ])('%s', async (typed, name) => {
    const type = (await openRoom()).as('bex')
    expect(exact(await type(`/calibrate ${typed}`), name)).toBeDefined()
  })
})

describe('several runs', () => {
  test('are averaged, and their spread is told', async () => {
    const type = (await openRoom()).as('bex')
    const answer = await type('/calibrate method:hand ground:"250 ft2" used:"0.5; 0.52 gal"')
    expect(exact(answer, 'output')).toEqual([2.04, 'gal/1000 ft2'])
    expect(exact(answer, 'spread')).toEqual([3.9, '%'])
    expect(answer.lines).toContain('2 runs, 3.9 % apart.')
  })

  test('too far apart they give a reason and no output', async () => {
    const type = (await openRoom()).as('bex')
    const answer = await type('/calibrate method:hand ground:"250 ft2" used:"0.4 gal; 0.6 gal"')
    expect(answer.title).toBe('Hold: 2 runs lie 40 % apart, more than 10 %. Run again before you use this')
    expect(exact(answer, 'output')).toBeUndefined()
  })

  test('of spots are averaged, never added up', async () => {
    const type = (await openRoom()).as('bex')
    const answer = await type('/calibrate method:spots used:"1 gal; 1.05 gal" spots:32')
    expect(exact(answer, 'per_spot')).toEqual([4.1, 'fl oz'])
    expect(exact(answer, 'spread')).toEqual([4.9, '%'])
    expect((await type('/calibrate method:spots used:"1 gal; 1.5 gal" spots:32')).outcome).toBe('hold')
  })

  test('over one strip are averaged; another strip is measured by itself', async () => {
    const type = (await openRoom()).as('bex')
    const strip = '/calibrate method:refill width:"10 ft" unit:"gal/acre"'
    const answer = await type(`${strip} used:"12 gal; 12.5 gal" distance:"660 ft"`)
    expect(exact(answer, 'output')).toEqual([80.85, 'gal/acre'])
    expect(exact(answer, 'spread')).toEqual([4.1, '%'])
    expect((await type(`${strip} used:"12 gal; 15 gal" distance:"660 ft"`)).outcome).toBe('hold')
    expect((await type(`${strip} used:"12 gal; 6 gal" distance:"660 ft; 330 ft"`)).outcome).toBe('question')
  })

  test('nozzles that catch too differently tell no output of a boom', async () => {
    const type = (await openRoom()).as('bex')
    const boom = '/calibrate method:boom time:"30 s" speed:"3 mph" spacing:"20 in"'
    expect((await type(`${boom} caught:"40; 70 fl oz"`)).outcome).toBe('hold')
    expect(exact(await type(`${boom} caught:"40; 42 fl oz"`), 'output')).toEqual([63.42, 'gal/acre'])
  })

  test('a tip that gives too little is held by its number', async () => {
    const type = (await openRoom()).as('bex')
    const answer = await type('/calibrate method:nozzles caught:"40, 41, 30, 40 fl oz"')
    expect([answer.outcome, answer.title]).toEqual([
      'hold',
      'Hold: nozzle 3 gives 30 fl oz, -20.5 % from the average. Over 10 %: replace the tip',
    ])
  })

  test('the tolerance of nozzles is a setting: 7 percent lets pass what 5 notes', async () => {
    const type = (await openRoom()).as('bex')
    const line = '/calibrate method:nozzles caught:"40, 40, 40, 42.5 fl oz"'
    expect((await type(`${line} tolerance:4`)).outcome).toBe('heads-up')
    expect((await type(`${line} tolerance:"7 %"`)).outcome).toBe('answer')
  })
})

describe('what is kept', () => {
  const hand = '/calibrate ground:"500 ft2" used:"0.5 gal" sprayer:Backpack'

  test('comes with its date, the time before and a picture of the trend', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const kept = await bex(hand, '> 1')
    expect(kept.lines).toEqual([
      'Measured Mon, May 4, 2026.',
      'Tip: flat fan, green ring. Pressure: 25 psi.',
      'Before: 1 gal/1000 ft², Sun, Apr 19, 2026.',
      '/mix uses it from now on. Another tip or pressure voids it.',
    ])
    const from = kept.shown.answered.reply.files[0]?.from
    if (from === undefined || !('picture' in from)) throw new Error('No picture of the trend')
    const { alt } = await drawPicture(from.picture, from.data, {
      say: (text) => speak(words, text, { locale: 'en', escape: (typed) => typed, zone: 'UTC' }),
      theme: 'light',
    })
    expect(alt).toContain('Backpack: Bex Yolvarren')
  })

  test('figures that never end are kept and drawn all the same', async () => {
    const room = await openRoom()
    const kept = await room.as('bex')('/calibrate ground:"300 ft2" used:"1 qt" sprayer:Backpack', '> 1')
    expect(kept.title).toBe('0.8333 gal/1000 ft² is kept for Bex Yolvarren with Backpack')
    const from = kept.shown.answered.reply.files[0]?.from
    expect(JSON.stringify(from)).toContain('"value":"0.83333"')
  })

  test('with another tip it belongs to that tip, and what was measured before is void', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const kept = await bex(`${hand} tip:"flat fan, blue ring"`, '> 1')
    expect(kept.lines).toContain(
      'Another tip or pressure: outputs measured before no longer count. Measure again.',
    )
    const mine = await bex('/mix rate:"1 fl oz/1000 ft2" tank:"4 gal" sprayer:Backpack')
    expect(exact(mine, 'concentrate_exact')).toEqual([4, 'fl oz'])
    const other = await room.as('teo')('/mix rate:"1 fl oz/1000 ft2" tank:"4 gal" sprayer:Backpack')
    expect(other.outcome).toBe('question')
  })

  test('names that are still open are asked, then it is kept', async () => {
    const bex = (await openRoom()).as('bex')
    await bex('/calibrate ground:"500 ft2" used:"0.5 gal"')
    const asked = await bex('> 1')
    expect(asked.choices).toEqual(['Backpack', 'Boom', 'Gun tank', 'Hand can'])
    expect((await bex('> 1')).title).toBe('1 gal/1000 ft² is kept for Bex Yolvarren with Backpack')
  })

  test('of spots never stands for a lawn', async () => {
    const bex = (await openRoom()).as('nila')
    await bex('/calibrate used:"1 gal" spots:"32" ground:"1 ft2" sprayer:Backpack')
    const kept = await bex('> 1')
    expect(kept.title).toBe('4 fl oz/spot is kept for Nila Quessarn with Backpack')
    expect((await bex('/mix rate:"1 fl oz/1000 ft2" tank:"4 gal" sprayer:Backpack')).outcome).toBe('question')
  })
})

test('a wrong figure in the form is corrected there, and nothing is kept', async () => {
  const room = await openRoom()
  const bex = room.as('bex')
  await bex('/calibrate method:hand sprayer:Backpack')
  const again = await bex('= ground:x used:"0.5 gal"')
  expect([again.outcome, again.fields]).toEqual(['question', ['ground', 'used']])
  expect(exact(await bex('= ground:"250 ft2" used:"0.5 gal"'), 'output')).toEqual([2, 'gal/1000 ft2'])
})

test.each([
  ['method:boom flow:"0.4 gal/min" speed:"4 mph" spacing:"20 in" width:"30 ft"', 'question'],
  ['method:boom flow:"0.4 gal/min" speed:"4 mph" output:"3 gal/acre" spacing:"20 in"', 'refusal'],
  ['method:pressure flow:"0.4 gal/min" pressure:"pumped by hand" to:"40 psi"', 'refusal'],
  ['method:pace output:"30 gal/acre" speed:"4 mph" to:"fast"', 'refusal'],
  ['method:spots used:"1 gal" spots:"a few"', 'refusal'],
  ['method:spreader before:"50 lb; 46 lb" after:"46 lb" ground:"1000 ft2"', 'question'],
  ['method:spreader before:"50 lb" after:"50 lb" ground:"1000 ft2"', 'refusal'],
  ['method:spreader target:"0.9 lb/100 gal" analysis:"25"', 'refusal'],
  ['method:spreader target:"0.9 lb/1000 ft2" analysis:"250 %"', 'refusal'],
  ['method:pans caught:"-6 ft many"', 'question'],
  ['method:nozzles caught:"40 fl oz"', 'question'],
  ['method:speed distance:"200 ft" time:"0 s"', 'refusal'],
  ['method:hand ground:"250 ft2" used:"0.5 gal" unit:furlongs', 'refusal'],
] as const)('%s: %s', async (typed, outcome) => {
  const room = await openRoom()
  const answer = await room.as('bex')(`/calibrate ${typed}`)
  expect(answer.outcome).toBe(outcome)
  expect(answer.choices).toEqual([])
  expect(answer.screen.join(' ').length).toBeGreaterThan(25)
  expect(room.errors).toEqual([])
})
