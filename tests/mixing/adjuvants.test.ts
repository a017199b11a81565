import { describe, expect, test } from 'vitest'
import { reader } from '#src/conversation/reader.ts'
import { chooseAdjuvants } from '#src/mixing/adjuvants.ts'
import { demoEntry } from '#tests/helpers/rows.ts'

const entry = (rule: 'needed' | 'allowed' | 'forbidden' | null) => {
  const { adjuvant: _, ...limits } = demoEntry().limits
  return demoEntry({
    limits: rule === null ? limits : { ...limits, adjuvant: { rule, kind: 'oil', rate: '0.5 % v/v' } },
  })
}
const chosen = (typed: string | undefined, rule: Parameters<typeof entry>[0]) =>
  chooseAdjuvants(typed, entry(rule), reader('en')).map(({ name, rate }) => `${name} ${rate.value}`)

describe('what goes in beside the product', () => {
  test.each([
    [undefined, 'needed', ['oil 0.5']],
    [undefined, 'allowed', []],
    [undefined, 'forbidden', []],
    [undefined, null, []],
    ['yes', 'allowed', ['oil 0.5']],
    ['con', 'allowed', ['oil 0.5']],
    ['yes', 'forbidden', []],
    ['no', 'needed', []],
    ['ninguno', 'needed', []],
    ['0.25 %', 'needed', ['adjuvant 0.25']],
    ['1 fl oz/gal', null, ['adjuvant 1']],
  ] as const)('typed %s where the label says %s', (typed, rule, expected) => {
    expect(chosen(typed, rule)).toEqual(expected)
  })

  test('what cannot be read is a problem, not no adjuvant', () => {
    const read = reader('en')
    expect(chooseAdjuvants('a splash', entry('needed'), read)).toEqual([])
    expect(read.problems).toHaveLength(1)
  })
})
