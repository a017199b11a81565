import { expect, test } from 'vitest'
import { openRoom, type Said } from './open-room.ts'

const value = (answer: Said, name: string) =>
  answer.shown.answered.reply.facts.find((one) => one.name === name)?.value

test('the label’s own limit comes first and is named', async () => {
  const type = (await openRoom()).as('bex')
  const answer = await type(
    '/conditions product:"Bellstrake 3 L" wind:"5 mph" temperature:"99 F" humidity:"50" droplets:coarse rain_in:48',
  )
  expect(answer.outcome).toBe('refusal')
  expect(answer.lines.join(' ')).toContain('Label: “')
})

test('what the label wants to know is asked in one form', async () => {
  const type = (await openRoom()).as('bex')
  const asked = await type('/conditions product:"Bellstrake 3 L" wind:"5 mph" temperature:"78 F"')
  expect(asked.outcome).toBe('question')
  expect(asked.fields).toEqual(['droplets', 'rain_in'])
  const answer = await type('= droplets:coarse rain_in:48')
  expect(['answer', 'heads-up']).toContain(answer.outcome)
})

test('nearly still air asks for the signs of layered air, and a sign is a hold', async () => {
  const type = (await openRoom()).as('bex')
  const asked = await type('/conditions wind:"1 mph" temperature:"70 F"')
  expect(asked.choices).toContain('Smoke hangs in a layer')
  expect((await type('> 1')).outcome).toBe('hold')
})

test('wind above 10 mph is held where no label speaks', async () => {
  const type = (await openRoom()).as('bex')
  expect((await type('/conditions wind:"14 mph" temperature:"70 F"')).outcome).toBe('hold')
})

test('heat index by the regression of the National Weather Service: 90 °F and 60 % is 99.7 °F', async () => {
  const type = (await openRoom()).as('bex')
  expect(value(await type('/conditions wind:"5 mph" temperature:"90 F" humidity:"60 %"'), 'heat_index')).toBe(
    99.7,
  )
})

test('Delta T is zero in air that holds all the water it can', async () => {
  const type = (await openRoom()).as('bex')
  expect(value(await type('/conditions wind:"5 mph" temperature:"70 F" humidity:"100"'), 'delta_t')).toBe(0)
})

test.each(['wind:"fast"', 'humidity:"wet"', 'temperature:"🌡"'])(
  'nonsense is a clear sentence: %s',
  async (typed) => {
    const type = (await openRoom()).as('bex')
    expect((await type(`/conditions ${typed}`)).outcome).toBe('refusal')
  },
)
