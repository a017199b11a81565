import { expect, test } from 'vitest'
import { EmergencyKind } from '#src/words/emergency/words.ts'
import { loadEmergencyFinder } from '#src/words/load.ts'
import { FIRES, HEARD, QUIET } from './emergency-phrases.ts'

const find = loadEmergencyFinder()
const firing = EmergencyKind.options.flatMap((kind) => FIRES[kind].map((text) => ({ kind, text })))

test('the tables are long enough to mean something', () => {
  expect(firing.length).toBeGreaterThanOrEqual(120)
  expect(QUIET.length).toBeGreaterThanOrEqual(150)
})

test.each(firing)('"$text" is $kind', ({ text, kind }) => {
  const found = find(text)
  expect(found?.kind).toBe(kind)
  expect(text).toContain(found?.matched)
})

test.each(HEARD.map((text) => ({ text })))('"$text" is heard', ({ text }) => {
  expect(find(text)).not.toBeNull()
})

test.each(QUIET.map((text) => ({ text })))('"$text" is no emergency', ({ text }) => {
  expect(find(text)).toBeNull()
})
