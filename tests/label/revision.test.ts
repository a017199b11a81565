import { describe, expect, test } from 'vitest'
import { compareRevisions, figuresToRetype, retypeMatches } from '#src/label/revision.ts'
import { entry, line } from './build.ts'

const live = entry({
  limits: { perYear: [{ rates: ['1 oz wt/1000 ft2'], period: 'rolling', counts: 'product' }] },
})
const withRate = (high: string) => ({
  ...live,
  rateLines: [line({ rates: [{ low: '0.4 oz wt/1000 ft2', high }] })],
})
const draft = withRate('0.6 oz wt/1000 ft2')
const two = { live, enteredBy: 'odalys', retypedBy: 'marl' }

describe('what a second person types again', () => {
  test('of a new entry: every rate and maximum', () => {
    expect(figuresToRetype(live, null)).toEqual([
      { id: 'rate.sedges.0.low', text: '0.4 oz wt/1000 ft2' },
      { id: 'rate.sedges.0.high', text: '0.5 oz wt/1000 ft2' },
      { id: 'year.0.0', text: '1 oz wt/1000 ft2' },
    ])
  })

  test('of a revision: what is new or changed', () => {
    expect(figuresToRetype(draft, live)).toEqual([{ id: 'rate.sedges.0.high', text: '0.6 oz wt/1000 ft2' }])
    expect(figuresToRetype({ ...live, notes: ['A note.'] }, live)).toEqual([])
  })

  test('the same number written otherwise is no change', () => {
    expect(figuresToRetype(withRate('0.50 oz per 1,000 sq ft'), live)).toEqual([])
  })

  test('another unit is a change even where the amount is the same', () => {
    expect(figuresToRetype(withRate('0.03125 lb/1000 ft2'), live)).toHaveLength(1)
  })
})

describe('a draft goes live', () => {
  const retyped = (text: string) => ({ 'rate.sedges.0.high': text })

  test.each([
    ['the same figure', '0.6 oz wt/1000 ft2', []],
    ['the same figure, written otherwise', '.60 oz per 1000 sq ft', []],
    ['another number', '0.06 oz wt/1000 ft2', ['label.retype-other-number']],
    ['another unit', '0.6 oz wt/acre', ['label.retype-other-unit']],
    ['the same amount in another unit', '0.0375 lb/1000 ft2', ['label.retype-other-unit']],
    ['nothing', ' ', ['label.retype-missing']],
    ['nothing that can be read', 'as above', ['label.retype-unreadable']],
  ])('when a second person types %s: %s', (_what, text, ids) => {
    expect(retypeMatches(draft, retyped(text), two).map(({ id }) => id)).toEqual(ids)
  })

  test('not when the same person types it twice', () => {
    const alone = { ...two, retypedBy: 'odalys' }
    expect(retypeMatches(draft, retyped('0.6 oz wt/1000 ft2'), alone)).toMatchObject([
      { id: 'label.retype-same-person' },
    ])
  })

  test('without a second person when no figure changed', () => {
    expect(retypeMatches({ ...live, notes: ['A note.'] }, {}, { ...two, retypedBy: 'odalys' })).toEqual([])
  })
})

describe('from one revision to the next', () => {
  test.each([
    ['0.5 oz wt/1000 ft2', undefined],
    ['0.6 oz wt/1000 ft2', 'changed'],
    ['5 oz wt/1000 ft2', 'factor-of-ten'],
    ['0.05 oz wt/1000 ft2', 'factor-of-ten'],
    ['0.5 oz wt/acre', 'area-slip'],
    ['8 lb/1000 ft2', 'much'],
  ])('0.5 oz wt/1000 ft2 becomes %s: %s', (text, kind) => {
    const bare = { ...live, rateLines: [line({ rates: [{ high: '0.5 oz wt/1000 ft2' }] })] }
    const next = { ...live, rateLines: [line({ rates: [{ high: text }] })] }
    expect(compareRevisions(bare, next)[0]?.kind).toBe(kind)
  })

  test('lines that came and went are named', () => {
    const other = { ...live, rateLines: [line({ id: 'other' })], limits: {} }
    expect(compareRevisions(live, other)).toEqual([
      { id: 'rate.other.0.low', kind: 'added', fresh: '0.4 oz wt/1000 ft2' },
      { id: 'rate.other.0.high', kind: 'added', fresh: '0.5 oz wt/1000 ft2' },
      { id: 'rate.sedges.0.low', kind: 'removed', old: '0.4 oz wt/1000 ft2' },
      { id: 'rate.sedges.0.high', kind: 'removed', old: '0.5 oz wt/1000 ft2' },
      { id: 'year.0.0', kind: 'removed', old: '1 oz wt/1000 ft2' },
    ])
  })

  test('a factor of ten brings a sentence that points it out', () => {
    const next = withRate('5 oz wt/1000 ft2')
    expect(compareRevisions(live, next)[0]).toMatchObject({
      kind: 'factor-of-ten',
      message: { id: 'rate.change.factor-of-ten' },
    })
  })
})
