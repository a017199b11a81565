import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { LabelEntry } from '#src/label/entry.ts'
import { groundsOf } from '#src/record/ground.ts'
import { notRecorded } from '#src/record/not-recorded.ts'
import type { RecordDraft } from '#src/record/record.ts'
import { type AddedUp, addUp, pastOf, rateOnGround, treatmentsFor } from '#src/record/totals.ts'
import { entry, line, situation } from '../label/build.ts'
import { draft, product, units } from './build.ts'

const { ounces, per1000, square } = units

/** The yearly limit that all of these look at: 0.2 oz of product per 1,000 ft² of ground. */
const label = entry({
  rateLines: [line({ rates: [{ high: '0.113 oz wt/1000 ft2' }] })],
  limits: { perYear: [{ rates: ['0.2 oz wt/1000 ft2'], period: 'calendar', counts: 'product' }] },
})
const bookOf =
  (...entries: readonly LabelEntry[]) =>
  (name: string) =>
    entries.find((one) => one.name === name)

/** A strip of 600 ft² out of a lawn of 6,000 ft²: 0.113 oz/1000 ft² on it are 0.0678 oz, by hand. */
function strip(parts: Partial<RecordDraft> = {}): RecordDraft {
  return draft({
    date: '2025-05-12',
    treatedArea: square('600'),
    coverage: 'strip',
    sameGround: 'first time',
    products: [product({ rate: per1000('0.113'), amount: ounces('0.0678') })],
    ...parts,
  })
}

function add(given: RecordDraft, earlier: readonly RecordDraft[], book = bookOf(label)): AddedUp {
  const { rate: _, treatments: __, ...rest } = situation({ today: '2025-07-14', turfs: ['tall-fescue'] })
  const [first] = addUp(given, { earlier, book, situation: rest })
  if (first === undefined) throw new RangeError('Cannot add up a product that the book does not have')
  return first
}
const standing = ({ verdict }: AddedUp) => verdict.reasons.map(({ id }) => id)

describe('rateOnGround()', () => {
  const rows: readonly (readonly [what: string, given: Partial<RecordDraft>, oz: string | undefined])[] = [
    ['is the amount over the treated strip, not over the lawn', {}, '0.113'],
    [
      'is what went on, not what was meant',
      { products: [product({ rate: per1000('0.113'), amount: ounces('0.0904') })] },
      '0.15066666666666666666666666666666666666666666666667',
    ],
    [
      'is what was meant, when the amount differs by its own rounding',
      { products: [product({ rate: per1000('0.113'), amount: ounces('0.068') })] },
      '0.113',
    ],
    [
      'is what was meant, when the amount is not known',
      { products: [product({ rate: per1000('0.113'), amount: notRecorded })] },
      '0.113',
    ],
    ['is what was meant, when the area is not known', { treatedArea: notRecorded }, '0.113'],
    [
      'is not known, when neither is',
      { products: [product({ rate: notRecorded, amount: notRecorded })] },
      undefined,
    ],
  ]
  test.each(rows)('%s', (_what, parts, oz) => {
    const given = strip(parts)
    const [used] = given.products as readonly ReturnType<typeof product>[]
    expect(used && rateOnGround(used, given)?.value).toBe(oz)
  })
})

describe('addUp()', () => {
  test('the same strip in July: 0.113 and 0.113 are above 0.2, and 0.087 is left', () => {
    const july = strip({ date: '2025-07-14', sameGround: 'same spots' })
    const found = add(july, [strip()])
    expect(standing(found)).toContain('label.above-year')
    expect(found.outcome).toBe('refusal')
    expect(found.totals[0]).toMatchObject({
      used: { value: '0.113' },
      adds: { value: '0.113' },
      total: { value: '0.226' },
      left: { value: '0.087' },
    })
  })

  test('averaged over the lawn it would be a tenth of that, and it is not averaged', () => {
    const found = add(strip({ date: '2025-07-14', sameGround: 'same spots' }), [strip()])
    expect(found.totals[0]?.used.value).not.toBe('0.0113')
  })

  test('other spots, or a strip that was missed then, have all of the year', () => {
    for (const sameGround of ['other spots', 'missed strip'] as const) {
      const found = add(strip({ date: '2025-07-14', sameGround }), [strip()])
      expect(standing(found)).not.toContain('label.above-year')
      expect(found.totals[0]?.used.value).toBe('0')
    }
  })

  test('ground that nobody tells apart counts as the same', () => {
    const found = add(strip({ date: '2025-07-14', sameGround: 'unknown' }), [strip()])
    expect(standing(found)).toContain('label.above-year')
  })

  test('the interval binds only ground that was treated', () => {
    const spaced = { ...label, limits: { interval: [{ days: 90, counts: 'product' as const }] } }
    const same = add(strip({ date: '2025-07-14', sameGround: 'same spots' }), [strip()], bookOf(spaced))
    const missed = add(strip({ date: '2025-07-14', sameGround: 'missed strip' }), [strip()], bookOf(spaced))
    expect(standing(same)).toContain('label.interval')
    expect(standing(missed)).not.toContain('label.interval')
  })

  test('a treatment with no amount counts, and somebody with a license decides', () => {
    const untold = strip({ products: [product({ rate: notRecorded, amount: notRecorded })] })
    const found = add(strip({ date: '2025-07-14', sameGround: 'same spots' }), [untold])
    expect(standing(found)).toContain('label.amount-unknown')
  })

  test('an estimated area near the limit is a hold; a measured one is not', () => {
    const near = {
      ...label,
      limits: {
        perYear: [
          { rates: ['0.13 oz wt/1000 ft2'], period: 'calendar' as const, counts: 'product' as const },
        ],
      },
    }
    const measured = add(strip({ date: '2025-07-14' }), [], bookOf(near))
    const estimated = add(strip({ date: '2025-07-14', areaBasis: 'estimate' }), [], bookOf(near))
    expect(measured.notes).toEqual([])
    expect(['answer', 'heads-up']).toContain(measured.outcome)
    expect(estimated.outcome).toBe('hold')
    expect(estimated.notes.map(({ say }) => say)).toEqual(['record.estimate-near'])
    const far = add(strip({ date: '2025-07-14', areaBasis: 'estimate' }), [], bookOf(label))
    expect(far.outcome).toBe(measured.outcome)
  })

  test('a product that the book does not have cannot be added up', () => {
    const { rate: _, treatments: __, ...rest } = situation()
    expect(addUp(strip(), { earlier: [], book: bookOf(), situation: rest })).toEqual([])
  })
})

describe('the basis of the label', () => {
  const two = (ae: boolean, period: 'calendar' | 'rolling'): LabelEntry =>
    entry({
      form: 'liquid',
      formulation: 'SL',
      actives: [{ name: 'inventol', strength: '4 lb ai/gal', acid: '3 lb ae/gal' }],
      rateLines: [line({ rates: [{ high: '2 pt/acre' }] })],
      limits: {
        perYear: [
          { rates: [ae ? '1.2 lb ae/acre' : '1.2 lb ai/acre'], period, counts: 'active', active: 'inventol' },
        ],
      },
    })
  const other = entry({
    name: 'Invented Twin',
    form: 'liquid',
    formulation: 'SL',
    actives: [{ name: 'Inventol', strength: '2 lb ai/gal', acid: '1.5 lb ae/gal' }],
  })
  const pint = (value: string, name = 'Invented 75 WDG', date = '2025-05-12'): RecordDraft =>
    draft({
      date,
      treatedArea: { value: '1', unit: 'acre' },
      sameGround: 'same spots',
      products: [
        product({
          name,
          form: 'liquid',
          rate: { kind: 'area', value, unit: 'pt', of: 'product', per: { value: '1', unit: 'acre' } },
          amount: { value, unit: 'pt' },
        }),
      ],
    })

  // 1 pt of 4 lb ai/gal is 0.5 lb ai and 0.375 lb ae; 1 pt of 2 lb ai/gal is half of each, by hand.
  const bases = [
    { ae: false, used: '0.75', adds: '0.5', above: true },
    { ae: true, used: '0.5625', adds: '0.375', above: false },
  ]
  test.each(bases)('all products with the active count, in ae: $ae', ({ ae, used, adds, above }) => {
    const earlier = [pint('1', 'Invented Twin', '2025-05-20'), pint('1')]
    const found = add(pint('1', 'Invented 75 WDG', '2025-07-14'), earlier, bookOf(two(ae, 'calendar'), other))
    expect(found.totals[0]).toMatchObject({
      active: 'inventol',
      used: { value: used },
      adds: { value: adds },
    })
    expect(standing(found).includes('label.above-year')).toBe(above)
  })

  test('a calendar year forgets last December, a rolling one does not', () => {
    const december = pint('2', 'Invented 75 WDG', '2024-12-20')
    const now = pint('1', 'Invented 75 WDG', '2025-07-14')
    expect(add(now, [december], bookOf(two(false, 'calendar'))).totals[0]?.used.value).toBe('0')
    expect(add(now, [december], bookOf(two(false, 'rolling'))).totals[0]?.used.value).toBe('1')
  })
})

describe('pastOf()', () => {
  test('gives one treatment for each product of the tank, with what it left', () => {
    const tank = strip({
      products: [
        product({ amount: ounces('0.0678'), rate: per1000('0.113') }),
        product({ name: 'Unheard 1' }),
      ],
    })
    const past = pastOf(tank, bookOf(label), true)
    expect(past.map(({ entry: name, areaFt2 }) => `${name} ${areaFt2}`)).toEqual([
      'Invented 75 WDG 600',
      'Unheard 1 600',
    ])
    expect(past[0]?.actives[0]?.amounts[0]?.value).toBe('0.08475')
    expect(past[1]?.actives).toEqual([{ name: 'inventol', amounts: [] }])
  })

  test('a record with no day has no place in a year', () => {
    expect(pastOf(strip({ date: notRecorded }), bookOf(label), true)).toEqual([])
  })

  test('what is put on twice counts twice, however the year is cut into records', () => {
    const amounts = fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 1, maxLength: 6 })
    fc.assert(
      fc.property(amounts, (parts) => {
        const earlier = parts.map((part) =>
          strip({
            coverage: 'whole area',
            treatedArea: square('1000'),
            products: [product({ rate: notRecorded, amount: ounces(String(part)) })],
          }),
        )
        const found = add(strip({ date: '2025-07-14', coverage: 'whole area' }), earlier)
        expect(Number(found.totals[0]?.used.value)).toBe(parts.reduce((a, b) => a + b, 0))
      }),
      { numRuns: 30 },
    )
  })
})

describe('groundsOf()', () => {
  const spots = (sameGround: RecordDraft['sameGround']) =>
    draft({ coverage: 'spots', ...(sameGround === undefined ? {} : { sameGround }) })
  const whole = draft({ coverage: 'whole area' })
  const rows: readonly (readonly [
    what: string,
    now: RecordDraft,
    earlier: readonly RecordDraft[],
    grounds: readonly unknown[],
  ])[] = [
    ['same as last time', spots('same spots'), [spots('first time')], [true]],
    ['other than last time', spots('other spots'), [spots('first time')], [false]],
    ['a strip that the whole lawn missed', spots('missed strip'), [whole], [false]],
    ['not told', spots('unknown'), [spots('first time')], ['unknown']],
    [
      'last time other, and the time before whole',
      spots('other spots'),
      [spots('first time'), whole],
      [false, true],
    ],
    ['same, and same before', spots('same spots'), [spots('same spots'), spots('first time')], [true, true]],
    [
      'same, and other before',
      spots('same spots'),
      [spots('other spots'), spots('first time')],
      [true, false],
    ],
    [
      'other now: what lies further back is not told',
      spots('other spots'),
      [spots('same spots'), spots('first time')],
      [false, 'unknown'],
    ],
    ['the whole area now', draft({ sameGround: 'unknown' }), [spots('first time')], [true]],
    ['the whole area now, whatever was answered', draft({ sameGround: 'other spots' }), [whole], [true]],
    ['no other spots than those of the whole area', spots('other spots'), [whole], [true]],
  ]
  test.each(rows)('%s', (_what, now, earlier, grounds) => {
    expect(groundsOf(now, earlier)).toEqual(grounds)
  })

  test('treatmentsFor() keeps them in their order', () => {
    const found = treatmentsFor(
      strip({ sameGround: 'other spots' }),
      [strip(), strip({ coverage: 'whole area' })],
      bookOf(label),
    )
    expect(found.map(({ sameGround }) => sameGround)).toEqual([false, true])
  })
})
