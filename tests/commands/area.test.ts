import { expect, test } from 'vitest'
import { openRoom, type Said } from './open-room.ts'

const squareFeet = (answer: Said) => {
  const found = answer.shown.answered.reply.facts.find(({ name }) => name === 'area')
  return [Number(Number(found?.value).toFixed(1)), found?.unit]
}

const shapes = [
  {
    line: 'shape:rectangle length:"60 ft" width:"25 ft"',
    found: 1500,
    source: 'Oklahoma State University-Oklahoma City, Calibrating Application Equipment (2013)',
  },
  {
    line: 'shape:triangle base:"30 ft" height:"26 ft"',
    found: 390,
    source: 'Oklahoma State University-Oklahoma City, Calibrating Application Equipment (2013)',
  },
  {
    line: 'shape:circle diameter:"20 ft"',
    found: 314.2,
    source: 'University of Tennessee PSEP, Common Calculations',
  },
  { line: 'shape:circle circumference:"800 ft"', found: 50929.6, source: 'by hand: 800² ÷ 4π' },
  {
    line: 'shape:trapezoid sides:"19.4 ft; 39.6 ft" height:"25 ft"',
    found: 737.5,
    source: 'surveying calculations, offsets 19.4 and 39.6 at 25',
  },
  {
    line: 'shape:offsets spacing:"10 ft" measurements:"0; 12; 15; 9 ft"',
    found: 315,
    source: 'by hand: 10 × (4.5 + 12 + 15)',
  },
  { line: 'shape:ellipse length:"40 ft" width:"20 ft"', found: 628.3, source: 'by hand: π ÷ 4 × 40 × 20' },
  {
    line: 'shape:rectangle length:"100 ft" width:"50 ft" minus:"rectangle 10 x 20 ft; 300 ft2"',
    found: 4500,
    source: 'by hand: 5,000 less 200 less 300',
  },
] as const

test.each(shapes)('/area $line is $found ft² ($source)', async ({ line, found }) => {
  const type = (await openRoom()).as('bex')
  expect(squareFeet(await type(`/area ${line}`))).toEqual([found, 'ft2'])
})

test('measures that are missing are asked, and the answer comes with a drawing', async () => {
  const type = (await openRoom()).as('bex')
  const asked = await type('/area shape:rectangle length:"60 ft"')
  expect(asked.fields).toEqual(['width'])
  const answer = await type('= width:"25 ft"')
  expect(squareFeet(answer)).toEqual([1500, 'ft2'])
  expect(answer.shown.answered.reply.files.map(({ name }) => name)).toEqual(['area.png'])
})

test('a lead keeps the size for an area of a site', async () => {
  const room = await openRoom()
  const type = room.as('odalys')
  const kept = await type(
    '/area shape:rectangle length:"100 ft" width:"62 ft" site:"Ospelwick School" area:"Entrance lawn"',
    '> 1',
  )
  expect(kept.title).toBe('Entrance lawn of Ospelwick School is now 6,200 ft²')
})

test('nobody but a lead is offered to keep it', async () => {
  const type = (await openRoom()).as('bex')
  expect((await type('/area shape:rectangle length:"60 ft" width:"25 ft"')).choices).toEqual([])
})

test.each(['minus:"a pond"', 'length:"0 ft" width:"3 ft"', 'length:"20 mi" width:"3 ft"'])(
  'nonsense is a clear sentence: %s',
  async (typed) => {
    const type = (await openRoom()).as('bex')
    const answer = await type(
      `/area shape:rectangle ${typed.includes('length') ? '' : 'length:"9 ft" width:"9 ft"'} ${typed}`,
    )
    expect(answer.outcome).toBe('refusal')
    expect(answer.screen.join(' ').length).toBeGreaterThan(30)
  },
)

test('beds larger than the ground leave nothing to treat', async () => {
  const type = (await openRoom()).as('bex')
  expect((await type('/area shape:rectangle length:"10 ft" width:"10 ft" minus:"200 ft2"')).outcome).toBe(
    'refusal',
  )
})
