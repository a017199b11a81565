import { describe, expect, test } from 'vitest'
import { foldAnswers, newAnswers, plusAnswer, plusAnswers } from '#src/identify/answers.ts'
import { emptyBody } from '#src/identify/keep.ts'
import type { Answer } from '#src/key/index.ts'

const seen = (character: string, ...states: string[]): Answer => ({ kind: 'states', character, states })

describe('answers of a walk', () => {
  test('are kept as they came, one for each press', () => {
    const body = [seen('vernation', 'folded'), seen('vernation', 'rolled')].reduce(plusAnswer, emptyBody)
    expect(body.answers).toHaveLength(2)
    expect(foldAnswers(body.answers)).toEqual([{ ...seen('vernation', 'rolled'), confirmed: false }])
  })

  test('given twice count as confirmed', () => {
    const twice = [seen('vernation', 'folded'), seen('vernation', 'folded')]
    expect(foldAnswers(twice)).toEqual([{ ...seen('vernation', 'folded'), confirmed: true }])
  })

  test('a head that came up is no second look at "no head"', () => {
    const grown = [seen('seedhead', 'none-seen'), seen('seedhead', 'pair-plus')]
    expect(foldAnswers(grown)).toEqual([seen('seedhead', 'pair-plus')])
  })

  test('typed once more as they are add nothing; a different one is added', () => {
    const body = plusAnswers(emptyBody, [seen('vernation', 'folded'), seen('tip', 'blunt')])
    expect(newAnswers(body, [seen('vernation', 'folded'), seen('tip', 'pointed')])).toEqual([
      seen('tip', 'pointed'),
    ])
  })

  test('a head that was said to be there is asked about until it is described', () => {
    const waiting = { ...emptyBody, hasHead: true }
    expect(plusAnswer(waiting, seen('tip', 'blunt')).hasHead).toBe(true)
    expect(plusAnswer(waiting, seen('seedhead', 'bur')).hasHead).toBe(false)
  })

  test('that are none are refused', () => {
    expect(() => plusAnswer(emptyBody, { kind: 'states', character: 'tip', states: [] })).toThrow()
  })
})
