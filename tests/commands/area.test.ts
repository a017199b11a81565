import { expect, test } from 'vitest'
import { drawPicture } from '#src/pictures/draw-picture.ts'
import { loadWords } from '#src/words/load.ts'
import { speak } from '#src/words/speak.ts'
import { openRoom, type Said } from './open-room.ts'

const words = loadWords()

/** The answer's picture as the messengers draw it. */
async function pictureOf(answer: Said) {
  const from = answer.shown.answered.reply.files[0]?.from
  if (from === undefined || !('picture' in from)) throw new Error('No picture to draw')
  return drawPicture(from.picture, from.data, {
    say: (text) => speak(words, text, { locale: 'en', escape: (typed) => typed, zone: 'America/New_York' }),
    theme: 'light',
  })
}

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

test('pieces add up, beds come off, and the drawing shows them all', async () => {
  const type = (await openRoom()).as('bex')
  const answer = await type(
    '/area length:"60 ft" width:"40 ft" more:"triangle 20x10 ft; 300 ft2" minus:"house 30x20 ft; circle 6 ft"',
  )
  // By hand: 2,400 + 100 + 300 − 600 − 9π.
  expect(squareFeet(answer)).toEqual([2171.7, 'ft2'])
  expect(answer.outcome).toBe('heads-up')
  expect(answer.lines.slice(1)).toEqual([
    '1: 60 ft × 40 ft is 2,400 ft²',
    '2: 20 ft × 10 ft ÷ 2 is 100 ft²',
    '3: 300 ft² is 300 ft²',
    '4, house: 30 ft × 20 ft is 600 ft²',
    '5: π × (6 ft ÷ 2)² is 28.27 ft²',
    '2,400 ft², 100 ft², and 300 ft² together are 2,800 ft²',
    '2,800 ft² less 628.3 ft² is 2,172 ft²',
    '“circle 6 ft” is read as the distance across. Write “radius” in it if it is that.',
  ])
  const picture = await pictureOf(answer)
  expect(picture.type).toBe('image/png')
  expect(picture.alt).toContain('2,172 ft²')
})

test('who names no shape is offered them all', async () => {
  const type = (await openRoom()).as('bex')
  expect((await type('/area')).choices).toHaveLength(6)
  const asked = await type('> 4')
  expect(asked.fields).toEqual(['diameter', 'circumference', 'radius'])
  expect(squareFeet(await type('= circumference:"800 ft"'))).toEqual([50929.6, 'ft2'])
})

test('a wrong figure in the form is corrected there', async () => {
  const type = (await openRoom()).as('bex')
  await type('/area shape:rectangle')
  const again = await type('= length:wide width:"25 ft"')
  expect([again.outcome, again.fields]).toEqual(['question', ['length', 'width']])
  expect(squareFeet(await type('= length:"60 ft" width:"25 ft"'))).toEqual([1500, 'ft2'])
})

test('the unit asked for is the unit of the answer', async () => {
  const type = (await openRoom()).as('bex')
  expect(squareFeet(await type('/area length:"200 m" width:"100 m" unit:ha'))).toEqual([2, 'ha'])
})

test('a person who works in meters types and reads meters', async () => {
  const type = (await openRoom()).as('bex')
  await type('/setup me units:metric')
  expect(squareFeet(await type('/area length:20 width:10'))).toEqual([200, 'm2'])
})

test('the drawing is kept with the area and shown again', async () => {
  const room = await openRoom()
  const lead = room.as('odalys')
  const place = 'site:"Ospelwick School" area:"Entrance lawn"'
  await lead(`/area length:"100 ft" width:"62 ft" minus:"bed 10x10 ft" ${place}`, '> 1')
  const shown = await room.as('bex')(`/area ${place}`)
  expect(squareFeet(shown)).toEqual([6100, 'ft2'])
  expect(shown.lines.at(-1)).toBe('Size of Entrance lawn, Ospelwick School, as measured.')
  expect(shown.shown.answered.reply.files.map(({ name }) => name)).toEqual(['area-entrance-lawn.png'])
})

test('a new area is added only once its name is no slip', async () => {
  const room = await openRoom()
  const lead = room.as('odalys')
  await lead('/area length:"30 ft" width:"20 ft"')
  const where = await lead('> 1')
  expect(where.fields).toEqual(['site', 'area'])
  const asked = await lead('= site:"Ospelwick School" area:"Entrance lwan"')
  expect(asked.choices).toEqual(['Entrance lawn', 'A new area: Entrance lwan'])
  const kept = await lead('> 2')
  expect(kept.title).toBe('Entrance lwan of Ospelwick School is now 600 ft²')
  expect(room.errors).toEqual([])
})

test.each([
  ['shape:triangle sides:"3 ft; 4 ft"', 'sides'],
  ['shape:triangle sides:"1 ft; 2 ft; 9 ft"', 'longer'],
  ['shape:trapezoid sides:"40 ft" height:"10 ft"', 'parallel'],
  ['radius:"3 ft" diameter:"6 ft"', 'one figure'],
  ['shape:offsets spacing:"10 ft" measurements:"12 ft"', '2 to 200'],
  ['length:"3 ft" width:"3 ft" unit:gallons', 'unit'],
])('%s is told', async (typed, words) => {
  const answer = await (await openRoom()).as('bex')(`/area ${typed}`)
  expect(answer.outcome).toBe('refusal')
  expect(answer.screen.join(' ')).toContain(words)
})
