import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { missing, withinLabel } from '#src/record/complete.ts'
import { elementIds } from '#src/record/element-ids.ts'
import { standingOf } from '#src/record/elements.ts'
import { keepUntil } from '#src/record/keep.ts'
import { late, timeliness, writeBy } from '#src/record/late.ts'
import { notRecorded } from '#src/record/not-recorded.ts'
import { signsDown } from '#src/record/posting.ts'
import { ApplicationRecord, RecordDraft as Draft, fieldIds, type RecordDraft } from '#src/record/record.ts'
import { ruleSetFor } from '#src/record/rule-set.ts'
import { statusOf } from '#src/record/status.ts'
import { LOG_STEPS, MOST_FIELDS, stepAsking } from '#src/record/step-list.ts'
import { nextStep, stepsLeft } from '#src/record/steps.ts'
import { loadWords } from '#src/words/load.ts'
import { speakForRecord } from '#src/words/speak.ts'
import { entry } from '../label/build.ts'
import { at, context, draft, product, record, tables, without } from './build.ts'

const words = loadWords()
const STATES = ['TX', 'CA', 'NY', 'OH', 'MN', 'WI', 'NJ', 'ME', 'MA', 'GA', 'IL', 'NC', 'MD', 'WA', 'ZZ']
const lacks = (given: RecordDraft, state: string, label = entry()) =>
  missing(given, ruleSetFor(state, tables), [label]).map(({ element }) => element)

describe('the schema of a record', () => {
  test('takes a record with every field', () => {
    expect(ApplicationRecord.safeParse(record()).error).toBeUndefined()
  })

  test.each(fieldIds.filter((field) => field !== 'siteId' && field !== 'areaId'))(
    '%s may be "not recorded", and visibly so',
    (field) => {
      expect(Draft.safeParse({ [field]: notRecorded }).success).toBe(true)
    },
  )

  const wrong: readonly (readonly [what: string, given: object])[] = [
    ['a day that does not exist', { date: '2025-02-30' }],
    ['a number that is not a decimal text', { treatedArea: { value: 5000, unit: 'ft2' } }],
    ['a unit that measures something else', { treatedArea: { value: '5', unit: 'gal' } }],
    ['a ZIP of four digits', { placeAddress: { street: 'a', town: 'b', state: 'NC', zip: '0011' } }],
    ['"not recorded" with a value beside it', { date: { notRecorded: true, value: '2025-06-30' } }],
    ['half a surrogate pair', { county: 'a\ud800' }],
    ['a field that no record has', { mood: 'good' }],
    ['an empty text', { county: ' ' }],
  ]
  test.each(wrong)('refuses %s', (_what, given) => {
    expect(Draft.safeParse(given).success).toBe(false)
  })
})

describe('missing()', () => {
  test.each(STATES)('finds nothing in a full record (%s)', (state) => {
    expect(lacks(draft(), state)).toEqual([])
    expect(lacks(draft({ products: [product({ restricted: true })] }), state)).toEqual([])
  })

  test('asks only what the state asks', () => {
    const given = without('windSpeed', 'windFrom', 'temperature', 'county', 'recipe', 'mixingPlace')
    expect(lacks(given, 'NY')).toEqual([])
    expect(lacks(given, 'TX')).toEqual(['wind-speed', 'wind-from', 'temperature'])
    expect(lacks(given, 'NJ')).toEqual(['county', 'recipe'])
    expect(lacks(given, 'WI')).toEqual(['mixing-place'])
  })

  test('asks only what the product asks', () => {
    const given = without('windSpeed', 'windFrom', 'rain', 'droplets')
    const label = entry({
      limits: { wind: { most: '10 mph' }, rainFree: { hours: 4 }, droplets: { classes: ['coarse'] } },
    })
    expect(lacks(given, 'NY', label)).toEqual(['wind-speed', 'wind-from', 'rain', 'droplets'])
  })

  test('North Carolina asks its list of restricted-use products only', () => {
    const given = without('endedAt', 'license')
    expect(lacks(given, 'NC')).toEqual([])
    const restricted = { ...given, products: [product({ restricted: true })] }
    expect(lacks(restricted, 'NC')).toEqual(['license', 'end-time'])
  })

  test('Wisconsin takes either of two groups, and asks for the one that is nearer', () => {
    const noRate = draft({
      products: [product({ rate: notRecorded, amount: { value: '2', unit: 'oz wt' } })],
    })
    const asksRate = missing(noRate, ruleSetFor('WI', tables), [entry()]).flatMap(({ asking }) =>
      asking.map(({ table }) => table.id),
    )
    expect(asksRate).toEqual(['everywhere'])
  })

  test('a value that is not known is still missing, in other words than one never asked for', () => {
    const [unknown] = missing(draft({ endedAt: notRecorded }), ruleSetFor('MN', tables))
    const [unasked] = missing(without('endedAt'), ruleSetFor('MN', tables))
    expect(unknown && speakForRecord(words, unknown.text)).toBe('Not recorded: when it ended.')
    expect(unasked && speakForRecord(words, unasked.text)).toBe('Missing: when it ended.')
    expect(unasked).toMatchObject({ step: 'when', field: 'endedAt', standing: 'absent' })
  })

  test('what was taken out as personal data does not make a record incomplete', () => {
    expect(lacks(draft({ customerName: { removed: true }, applicator: { removed: true } }), 'TX')).toEqual([])
  })

  test('spots in Maine need how far they reach instead of an area', () => {
    const spots: RecordDraft = { ...without('placeWords'), coverage: 'spots' }
    expect(lacks(spots, 'ME')).toEqual(['extent'])
  })

  test('each element has words, a look and a step that asks it', () => {
    for (const element of elementIds) {
      expect(words.source('en', `record.element.${element}`), element).not.toBeNull()
      expect(['there', 'absent']).toContain(standingOf(element, {}))
      expect(standingOf(element, draft()), element).toBe('there')
      if (element !== 'written-by') expect(stepAsking(element).field, element).toMatch(/^[a-zA-Z]+$/)
    }
  })
})

/** Which day a record must be written by. The source of each limit stands in the table of its state. */
const LATE: readonly (readonly [state: string, written: string, isLate: boolean])[] = [
  ['OH', '2025-06-30 23:59', false],
  ['OH', '2025-07-01 00:00', true],
  ['WI', '2025-07-01 00:00', true],
  ['ME', '2025-07-01 00:00', true],
  ['NJ', '2025-07-01 09:50', false],
  ['NJ', '2025-07-01 09:51', true],
  ['NC', '2025-07-03 09:50', false],
  ['NC', '2025-07-03 09:51', true],
  ['MN', '2025-07-05 23:59', false],
  ['MN', '2025-07-06 00:00', true],
  ['ZZ', '2025-07-01 00:00', true],
]

describe('late', () => {
  test.each(LATE)('in %s, written %s: %s', (state, written, isLate) => {
    expect(timeliness(draft(), at(written), ruleSetFor(state, tables))?.isLate).toBe(isLate)
  })

  test('a state with no day of its own is held to the same day, and it is told that this is no rule of the state', () => {
    const found = timeliness(draft(), at('2025-07-01 00:00'), ruleSetFor('TX', tables))
    expect(found).toMatchObject({ isLate: true, isOwnRule: false })
    expect(found?.source.basis).toBe('proposal')
  })

  test('night work belongs to the day on which it ends', () => {
    const night = draft({ endedAt: at('2025-07-01 00:40'), nightWork: true })
    expect(timeliness(night, at('2025-07-01 01:00'), ruleSetFor('OH', tables))?.isLate).toBe(false)
    expect(writeBy(night, ruleSetFor('OH', tables))).toBe('2025-07-01')
  })

  test('says how late, and what the limit is', () => {
    const text = late(draft(), at('2025-07-09 08:00'), ruleSetFor('MN', tables))
    expect(text && speakForRecord(words, text)).toBe(
      'Late by the rule of the state: written 9 days after, the limit is 5 days.',
    )
    expect(late(draft(), at('2025-06-30 10:00'), ruleSetFor('MN', tables))).toBeNull()
    const strict = late(draft(), at('2025-07-01 08:00'), ruleSetFor('TX', tables))
    expect(strict && speakForRecord(words, strict)).toBe(
      'Written 1 day after. The state’s own limit was not found, so the same day is taken.',
    )
  })
})

describe('keepUntil()', () => {
  const years: readonly (readonly [state: string, crew: number, until: string])[] = [
    ['TX', 1, '2027-06-30'],
    ['TX', 7, '2032-06-30'],
    ['MN', 1, '2030-06-30'],
    ['WA', 1, '2032-06-30'],
    ['ZZ', 1, '2032-06-30'],
  ]
  test.each(years)('in %s with %s years of the crew: until %s', (state, crewYears, until) => {
    const rules = ruleSetFor(state, tables)
    expect(keepUntil('2025-06-30', rules, { restricted: false, crewYears })).toBe(until)
  })

  test('a leap day is kept a day longer rather than shorter', () => {
    const rules = ruleSetFor('TX', tables)
    expect(keepUntil('2024-02-29', rules, { restricted: false, crewYears: 7 })).toBe('2031-03-01')
  })
})

describe('signs', () => {
  test('come down after hours in Ohio, on the next day in Illinois, at sunset in Wisconsin', () => {
    const downIn = (state: string) => {
      const { posting } = ruleSetFor(state, tables).state
      return posting && signsDown(posting, at('2025-06-30 09:50'))
    }
    expect(downIn('OH')).toMatchObject({ kind: 'moment', atMs: at('2025-07-01 09:50').atMs })
    expect(downIn('IL')).toMatchObject({ kind: 'day', day: '2025-07-01', atSunset: false })
    expect(downIn('WI')).toMatchObject({ day: '2025-07-01', atSunset: true, orLabelInterval: true })
    expect(downIn('ME')).toMatchObject({ kind: 'day', day: '2025-07-02' })
  })
})

describe('withinLabel()', () => {
  const check = (outcome: 'answer' | 'heads-up' | 'question' | 'hold' | 'refusal', lifted?: boolean) => [
    { product: 'Demo', outcome, reasons: [], ...(lifted === undefined ? {} : { lifted }) },
  ]
  test('an answer and a heads-up are, a refusal and a hold are not', () => {
    expect(
      (['answer', 'heads-up', 'question', 'hold', 'refusal'] as const).map((one) => withinLabel(check(one))),
    ).toEqual(['yes', 'yes', 'no', 'no', 'no'])
  })
  test('a lifted hold is, a lifted refusal is not: nobody lifts a refusal', () => {
    expect(withinLabel(check('hold', true))).toBe('yes')
    expect(withinLabel(check('refusal', true))).toBe('no')
  })
  test('what was never held against the label is not known', () => {
    expect(withinLabel(undefined)).toBe('unknown')
  })
})

describe('statusOf()', () => {
  test('a full record is complete, within the label and in time', () => {
    expect(statusOf(record(), context({ state: 'OH', asked: {} }))).toMatchObject({
      isComplete: true,
      missing: [],
      withinLabel: 'yes',
      isLate: false,
    })
  })

  test('complete, within the label and in time are three things', () => {
    const known = context({ state: 'OH', writtenAt: at('2025-07-02 08:00'), asked: { turfs: ['bermuda'] } })
    const status = statusOf(draft(), known)
    expect(status).toMatchObject({ isComplete: true, withinLabel: 'no', isLate: true })
  })

  test('a hold that was lifted beforehand does not put a record outside the label', () => {
    const turfSplit = { id: 'label.turf-split', outcome: 'hold' } as const
    const check = { product: 'Invented 75 WDG', outcome: 'hold', lifted: true, reasons: [turfSplit] } as const
    const status = statusOf(
      draft({ labelCheck: [{ ...check, reasons: [turfSplit] }] }),
      context({ state: 'OH' }),
    )
    expect(status.withinLabel).toBe('yes')
  })

  test('something missing is told once', () => {
    const status = statusOf(without('endedAt'), context({ state: 'OH', asked: {} }))
    expect(status.missing.map(({ element }) => element)).toEqual(['end-time'])
    expect(status.findings).toEqual([])
    expect(status.isComplete).toBe(false)
  })
})

describe('the steps of a log', () => {
  test('hands come first, then whether anything went wrong', () => {
    expect(
      stepsLeft({}, ruleSetFor('TX', tables))
        .map(({ step }) => step)
        .slice(0, 2),
    ).toEqual(['hands', 'unusual'])
  })

  test('no form has more than five fields', () => {
    expect(LOG_STEPS.filter(({ fields }) => fields.length > MOST_FIELDS)).toEqual([])
  })

  test('every step has a title', () => {
    expect(LOG_STEPS.filter(({ id }) => words.source('en', `record.step.${id}`) === null)).toEqual([])
  })

  test('a full draft is asked nothing more', () => {
    expect(nextStep(draft(), ruleSetFor('ZZ', tables), [entry()])).toBeNull()
  })

  test('asks only the fields that are lacking', () => {
    expect(nextStep(without('temperature', 'license'), ruleSetFor('TX', tables))).toEqual({
      step: 'weather',
      fields: ['temperature'],
    })
  })

  test('what somebody answered with "not recorded" is not asked again', () => {
    const given = { ...without('temperature'), temperature: notRecorded }
    expect(nextStep(given, ruleSetFor('TX', tables))).toBeNull()
    expect(lacks(given, 'TX')).toEqual(['temperature'])
  })

  test('still air brings the question about its signs', () => {
    const still = {
      ...without('inversion'),
      windSpeed: [{ value: { value: '0', unit: 'mph' } as const, takenAt: at('2025-06-30 09:10') }],
    }
    expect(nextStep(still, ruleSetFor('ZZ', tables))).toEqual({ step: 'calm', fields: ['inversion'] })
  })

  test('whatever is left out of a draft, answering step by step ends, and never asks twice', () => {
    const everything: Readonly<Record<string, unknown>> = draft()
    const names = fc.subarray(Object.keys(everything))
    fc.assert(
      fc.property(names, fc.constantFrom(...STATES), (left, state) => {
        const rules = ruleSetFor(state, tables)
        const known = Object.entries(everything).filter(([field]) => !left.includes(field))
        const open = stepsLeft(Object.fromEntries(known) as RecordDraft, rules)
        const filled = stepsLeft(everything as RecordDraft, rules)
        expect(filled).toEqual([])
        expect(open.flatMap(({ fields }) => fields).length).toBeLessThanOrEqual(47)
        expect(open.length === 0).toBe(
          lacks(Object.fromEntries(known) as RecordDraft, state).length === 0 &&
            !left.includes('handsWashed'),
        )
      }),
      { numRuns: 60 },
    )
  })
})
