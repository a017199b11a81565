import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Amendment, Current } from '#src/record/amend.ts'
import { amend, amendmentText, current, historyOf, sealAmendment } from '#src/record/amend.ts'
import { removePersonal, unseal } from '#src/record/seal.ts'
import { sayAmendProblem } from '#src/record/words.ts'
import { loadWords } from '#src/words/load.ts'
import { speakForRecord } from '#src/words/speak.ts'
import { at, english, record, saltOf, units } from './build.ts'

const by = { name: 'Demo Lead Harrowmere', id: 1 }
const untouched: Current = { record: record(), amended: [], voidedBy: null }

function change(
  changes: Readonly<Record<string, unknown>>,
  number = 'A-1',
  from: Current = untouched,
): Amendment {
  const made = amend(from, {
    number,
    at: at('2025-07-01 08:00'),
    by,
    why: english('read the tank again'),
    changes,
  })
  if (!made.ok) throw new RangeError(`Cannot amend: ${JSON.stringify(made.error)}`)
  return made.value
}

function applied(...amendments: readonly Amendment[]): Current {
  const state = current(record(), amendments)
  if (!state.ok) throw new RangeError(`Cannot apply: ${JSON.stringify(state.error)}`)
  return state.value
}

describe('an amendment (V42: what is kept changes by nothing else)', () => {
  test('names who, when and why, and keeps what stood before', () => {
    const made = change({ treatedArea: units.square('4800') })
    expect(made).toMatchObject({
      record: 'R-1',
      by,
      why: { words: 'read the tank again' },
      changes: [
        {
          field: 'treatedArea',
          before: { value: '5000', unit: 'ft2' },
          after: { value: '4800', unit: 'ft2' },
        },
      ],
    })
  })

  test('does not touch the record itself', () => {
    const before = JSON.stringify(record())
    const kept = record()
    current(kept, [change({ treatedArea: units.square('4800') })])
    expect(JSON.stringify(kept)).toBe(before)
  })

  test('fills what was missing, and takes back what nobody should have said', () => {
    const filled = applied(change({ lateNote: { by, words: english('phone was lost') } }))
    expect(filled.record.lateNote).toBeDefined()
    expect(applied(change({ windFrom: undefined })).record).not.toHaveProperty('windFrom')
  })

  test('can put a known value back to "not recorded"', () => {
    expect(applied(change({ temperature: { notRecorded: true } })).record.temperature).toEqual({
      notRecorded: true,
    })
  })

  test('voids a record without hiding anything in it', () => {
    const made = amend(untouched, {
      number: 'A-1',
      at: at('2025-07-01 08:00'),
      by,
      why: english('twice'),
      voids: true,
    })
    const state = applied(made.ok ? made.value : change({}))
    expect(state.voidedBy?.number).toBe('A-1')
    expect(state.record).toEqual(record())
  })

  const refused: readonly (readonly [
    what: string,
    changes: Readonly<Record<string, unknown>>,
    said: string,
  ])[] = [
    [
      'the day it was written',
      { writtenAt: at('2025-06-01 08:00') },
      '“writtenAt” cannot be changed. What the store writes stays as it is.',
    ],
    ['its number', { number: 'R-2' }, '“number” cannot be changed. What the store writes stays as it is.'],
    ['a value that no field takes', { date: '2025-02-30' }, '“date” cannot be this value.'],
    ['nothing', { treatedArea: units.square('5000') }, 'Nothing was changed.'],
  ]
  test.each(refused)('cannot change %s', (_what, changes, said) => {
    const made = amend(untouched, {
      number: 'A-1',
      at: at('2025-07-01 08:00'),
      by,
      why: english('so'),
      changes,
    })
    const words = loadWords()
    expect(
      made.ok ? [] : made.error.map((problem) => speakForRecord(words, sayAmendProblem(problem))),
    ).toEqual([said])
  })

  test('needs a reason', () => {
    const made = amend(untouched, {
      number: 'A-1',
      at: at('2025-07-01 08:00'),
      by,
      why: english(' '),
      changes: { county: 'X' },
    })
    expect(made).toEqual({ ok: false, error: [{ kind: 'no-reason' }] })
  })

  test('of a voided record is refused', () => {
    const voided: Current = {
      ...untouched,
      voidedBy: { ...change({ county: 'X' }), number: 'A-9', voids: true },
    }
    const made = amend(voided, {
      number: 'A-2',
      at: at('2025-07-01 08:00'),
      by,
      why: english('so'),
      changes: { county: 'Y' },
    })
    expect(made).toEqual({ ok: false, error: [{ kind: 'voided', by: 'A-9' }] })
  })

  test('of another record does not apply', () => {
    const other = { ...change({ county: 'X' }), record: 'R-2' }
    expect(current(record(), [other])).toMatchObject({ ok: false, error: { why: 'other-record' } })
  })

  test('after a voiding does not apply', () => {
    const voiding = { ...change({ county: 'X' }), voids: true }
    const late = { ...change({ county: 'X' }), number: 'A-2' }
    expect(current(record(), [voiding, late])).toMatchObject({
      error: { why: 'after-void', amendment: 'A-2' },
    })
  })
})

describe('the order of amendments', () => {
  const first = change({ treatedArea: units.square('4800') }, 'A-1')
  const second = change({ treatedArea: units.square('4600') }, 'A-2', applied(first))

  test('is kept: each finds what the one before it left', () => {
    expect(applied(first, second).record.treatedArea).toEqual(units.square('4600'))
  })

  test('cannot be turned: an amendment that finds something else says so', () => {
    expect(current(record(), [second, first])).toEqual({
      ok: false,
      error: { amendment: 'A-2', why: 'not-what-stood-before', field: 'treatedArea' },
    })
  })

  test('no two amendments of one field commute, whatever they say', () => {
    const area = fc.integer({ min: 1, max: 4999 }).map((value) => units.square(String(value)))
    fc.assert(
      fc.property(
        fc.uniqueArray(area, { minLength: 2, maxLength: 5, selector: ({ value }) => value }),
        (areas) => {
          const made: Amendment[] = []
          for (const [n, treatedArea] of areas.entries())
            made.push(change({ treatedArea }, `A-${n + 1}`, applied(...made)))
          expect(applied(...made).record.treatedArea).toEqual(areas.at(-1))
          const [one, two, ...rest] = made
          const turned = one && two ? [two, one, ...rest] : []
          expect(current(record(), turned).ok).toBe(false)
        },
      ),
    )
  })

  test('any amendment left out of the middle is found', () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 6 }), fc.nat(), (length, pick) => {
        const made: Amendment[] = []
        for (let n = 0; n < length; n += 1)
          made.push(change({ treatedArea: units.square(String(4000 - n)) }, `A-${n + 1}`, applied(...made)))
        const gone = pick % (length - 1)
        expect(
          current(
            record(),
            made.filter((_, n) => n !== gone),
          ).ok,
        ).toBe(false)
      }),
    )
  })
})

describe('historyOf()', () => {
  test('tells every value that a field has had, the oldest first, with who said it', () => {
    const first = change({ treatedArea: units.square('4800') }, 'A-1')
    const second = change({ treatedArea: units.square('4600'), county: 'Other' }, 'A-2', applied(first))
    const versions = historyOf(record(), [first, second], 'treatedArea')
    expect(versions.map(({ value }) => value)).toEqual(
      ['5000', '4800', '4600'].map((value) => units.square(value)),
    )
    expect(versions.map(({ from }) => (from === 'record' ? from : from.number))).toEqual([
      'record',
      'A-1',
      'A-2',
    ])
    expect(historyOf(record(), [first], 'county')).toHaveLength(1)
  })
})

describe('an amendment in the chain', () => {
  const made = change({ applicator: { name: 'Demo Person Sallow' }, county: 'Other' })
  const sealed = sealAmendment(made, saltOf)

  test('shows what was changed and hides every name in it', () => {
    const text = amendmentText(sealed.open)
    expect(text).toContain('field "county"')
    expect(text).toContain('after "Other"')
    for (const name of ['Quillfern', 'Sallow', 'Harrowmere', 'tank']) expect(text).not.toContain(name)
  })

  test('is the same again while its names are kept, and still applies when they are taken out', () => {
    expect(unseal(sealed)).toEqual(made)
    const bare = unseal(removePersonal(sealed)) as unknown as Amendment
    const state = applied(bare)
    expect(state.record.applicator).toEqual({ removed: true })
    expect(state.record.county).toBe('Other')
  })
})
