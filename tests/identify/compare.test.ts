import { expect, test } from 'vitest'
import { openRoom } from '#tests/helpers/room.ts'

const CARPETGRASS =
  '/key turf:centipedegrass observed:"a grass; folded; stolons; blade 6 mm; blunt tip; seedhead=pair-plus; node_hairs=yes"'

const marksOf = (form: { fields: readonly { options: readonly { value: string }[] }[] } | null) =>
  form?.fields[0]?.options.map(({ value }) => value) ?? []

test('a weed by name lists what else to hold against the plant, and ticks what does not fit', async () => {
  const { ask } = await openRoom({ as: 'crew' })
  const named = await ask(CARPETGRASS)
  expect(named.facts.result?.value).toBe('weed')
  expect(named.text).toMatch(/Compare before you spray:\n- .+: .+\n- /)
  expect(named.choices.map(({ label }) => label)).toContain('Products for it here')
  const marks = marksOf(named.form)
  expect(marks.length).toBeGreaterThanOrEqual(3)

  const held = await ask(`= clashes:"${marks.join(', ')}"`)
  expect(held.facts.result?.value).toBe('hold')
  expect(held.choices.map(({ label }) => label)).not.toContain('Products for it here')
  expect(held.working.some((line) => line.includes(': not '))).toBe(true)
})

test('whoever ticks nothing keeps the name', async () => {
  const { ask } = await openRoom({ as: 'crew' })
  const named = await ask(CARPETGRASS)
  const [first = ''] = marksOf(named.form)
  const again = await ask(`= unseen:${first}`)
  expect(again.facts.result?.value).toBe('weed')
  expect(again.title).toBe(named.title)
})
