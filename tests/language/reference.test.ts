import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { commands } from '#commands/index.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import { roundToDigits } from '#src/quantity/round.ts'
import { type AmountUnit, amountUnits } from '#src/quantity/units.ts'
import { notes } from '#src/reference/facts.ts'
import { MONDAY, openRoom, type Room, type Said } from '#tests/commands/open-room.ts'
import { ASKED } from '#tests/reference/asked.ts'
import { CALIBRATION_ROWS } from '#tests/reference/calibration-rows.ts'
import { DAY_ROWS } from '#tests/reference/day-rows.ts'
import { GROUND_ROWS } from '#tests/reference/ground-rows.ts'
import { ROWS as MIXING_ROWS } from '#tests/reference/mixing-rows.ts'

const rowOf = (id: string) =>
  [...MIXING_ROWS, ...CALIBRATION_ROWS, ...GROUND_ROWS, ...DAY_ROWS].find((row) => row.id === id)

/** A fact as a bare number of the unit in which its row is printed. */
function figureIn({ shown }: Said, name: string, wanted: string): string {
  const { value, unit } = shown.presented.facts.find((fact) => fact.name === name) ?? expect.fail(name)
  const isAmount = (id: string | null): id is AmountUnit => amountUnits.includes(id as AmountUnit)
  return isAmount(unit) && isAmount(wanted)
    ? amountIn(quantity(String(value), unit), wanted).toFixed()
    : String(value)
}

/** What a reply says beside its words. */
const plain = ({ outcome, facts, choices, fields }: Said) => ({
  outcome,
  facts,
  choices: choices.length,
  fields,
})

let english: Room
let spanish: Room
const ends: (() => Promise<void>)[] = []
beforeAll(async () => {
  const open = () => openRoom(MONDAY, (close) => ends.push(close))
  english = await open()
  spanish = await open()
})
afterAll(() => Promise.all(ends.map((end) => end())))

describe('published examples, asked in English and in Spanish', () => {
  test.each(ASKED)('$id: $es', async ({ id, en, es, fact }) => {
    const inEnglish = await english.as('bex')(en)
    const inSpanish = await spanish.as('bex', 'es')(es)
    expect(plain(inSpanish)).toEqual(plain(inEnglish))
    expect(inSpanish.title).not.toMatch(/\b(the|of|wait|is)\b/)
    const row = rowOf(id) ?? expect.fail('There is no such row')
    expect(roundToDigits(figureIn(inEnglish, fact, row.unit), 4, 'nearest').toFixed()).toBe(row.ours)
  })
})

describe('every command by its examples, and by its name alone', () => {
  const lines = commands.flatMap(({ name, may }) =>
    [...(notes[name]?.examples ?? []), `/${name}`].map((line) => ({
      line,
      who: may === 'lead' ? 'lead' : 'bex',
    })),
  )
  test.each(lines)('$line', async ({ line, who }) => {
    const inEnglish = await english.as(who)(line)
    const inSpanish = await spanish.as(who, 'es')(line)
    expect(plain(inSpanish)).toEqual(plain(inEnglish))
  })
})
