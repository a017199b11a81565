import { describe, expect, test } from 'vitest'
import { mayI } from '#src/label/allow.ts'
import { addDays } from '#src/label/day.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { outputOf, rateOf } from '#src/label/figures.ts'
import { productsFor } from '#src/label/fitting.ts'
import type { Situation } from '#src/label/situation.ts'
import { plants } from '#src/plants.ts'
import { big } from '#src/quantity/big.ts'
import { convertNumber } from '#src/quantity/quantity.ts'
import { confirmedDaysAgo, loadDemo } from '../../data/demo/load.ts'
import { situation, standing, treatment } from './build.ts'

const taxa = plants().taxa
const demo = loadDemo(new Set(taxa.map(({ id }) => id)))
const TODAY = '2025-06-30'

function named(name: string): LabelEntry {
  const found = demo.book.find((entry) => entry.name === name)
  if (found === undefined) throw new RangeError(`Cannot find ${name} in the demo book`)
  return found
}

/** Which products of the book show each kind of label. */
const shows: readonly [what: string, product: string, does: (entry: LabelEntry) => boolean][] = [
  ['a dry product', 'Tarnbrask 75 WDG', ({ form }) => form === 'dry'],
  ['a liquid product', 'Bellstrake 3 L', ({ form }) => form === 'liquid'],
  ['a rate per 1,000 ft2', 'Dunvarrow 2 SC', (entry) => hasRate(entry, /1000 ft2/)],
  ['a rate per acre', 'Fennowick 4 EC', (entry) => hasRate(entry, /acre/)],
  ['a metric rate', 'Wraxmoor 20 ME', (entry) => hasRate(entry, /ha/)],
  ['a rate per 100 gal', 'Pellimoor 80 WP', (entry) => hasRate(entry, /100 gal/)],
  ['a share by volume', 'Cawderly Spot', (entry) => hasRate(entry, /% v\/v/)],
  ['printed pairs that do not agree to the last digit', 'Tarnbrask 75 WDG', hasUnequalPair],
  ['rate lines by turf, weed and season', 'Bellstrake 3 L', ({ rateLines }) => rateLines.length > 3],
  [
    'first and repeat',
    'Fennowick 4 EC',
    ({ rateLines }) => new Set(rateLines.map((line) => line.treatment)).has('repeat'),
  ],
  [
    'a yearly maximum and 28 days between',
    'Tarnbrask 75 WDG',
    ({ limits }) =>
      limits.perYear?.[0]?.rates[0] === '0.2 oz wt/1000 ft2' && limits.interval?.[0]?.days === 28,
  ],
  [
    'a yearly maximum of an active in two products',
    'Harmottle 0.5 G',
    ({ limits }) => limits.perYear?.[0]?.counts === 'active',
  ],
  [
    'a yearly maximum in acid equivalent',
    'Bellstrake 3 L',
    ({ limits }) => /ae/.test(limits.perYear?.[0]?.rates[0] ?? ''),
  ],
  ['a number of treatments', 'Cawderly Spot', ({ limits }) => limits.treatments?.[0]?.most === 3],
  ['an excluded turf', 'Dunvarrow 2 SC', ({ excludedTurfs }) => excludedTurfs !== undefined],
  [
    'a dormant-only turf',
    'Stilbrack 41 SL',
    ({ rateLines }) => rateLines.some(({ dormantOnly }) => dormantOnly),
  ],
  ['an adjuvant that is needed', 'Tarnbrask 75 WDG', ({ limits }) => limits.adjuvant?.rule === 'needed'],
  ['an adjuvant that is allowed', 'Bellstrake 3 L', ({ limits }) => limits.adjuvant?.rule === 'allowed'],
  ['an adjuvant that is forbidden', 'Dunvarrow 2 SC', ({ limits }) => limits.adjuvant?.rule === 'forbidden'],
  ['a temperature limit', 'Bellstrake 3 L', ({ limits }) => limits.temperature?.most === '85 F'],
  ['a scoop weight', 'Pellimoor 80 WP', ({ scoop }) => scoop?.holds === '0.8 oz wt'],
  ['an own mixing order', 'Pellimoor 80 WP', ({ mixingOrder }) => mixingOrder !== undefined],
  ['a non-selective product', 'Stilbrack 41 SL', ({ nonSelective }) => nonSelective === true],
  ['a restricted one', 'Yarvendel 50 WG', ({ restricted }) => restricted],
  ['a least output', 'Fennowick 4 EC', ({ limits }) => limits.minimumOutput !== undefined],
  ['no less than the label', 'Fennowick 4 EC', ({ limits }) => limits.lessForbidden !== undefined],
  ['listed weeds only', 'Fennowick 4 EC', ({ limits }) => limits.onlyListedWeeds !== undefined],
  ['no registration number, exempt', 'Gorseholt 25 L', ({ registration }) => registration.exempt25b === true],
  ['a local need', 'Wraxmoor 20 ME', ({ registration }) => registration.specialLocalNeed !== undefined],
  [
    'a label that is silent on nearly everything',
    'Gorseholt 25 L',
    ({ limits }) => Object.keys(limits).length === 0,
  ],
]

function hasRate({ rateLines }: LabelEntry, like: RegExp): boolean {
  return rateLines.some(({ rates }) => rates.some(({ high }) => like.test(high)))
}

function hasUnequalPair(entry: LabelEntry): boolean {
  return entry.rateLines.some(({ rates }) => {
    const [a, b] = rates.map(({ high }) => rateOf(entry, high))
    if (a?.kind !== 'area' || b?.kind !== 'area') return false
    const perAcre = convertNumber(a.value, a.unit, b.unit).times(convertNumber(1, b.per.unit, a.per.unit))
    return !perAcre.equals(b.value) && perAcre.minus(b.value).abs().div(b.value).lt('0.1')
  })
}

describe('the demo book', () => {
  test.each(shows)('%s is shown by %s', (_what, product, does) => {
    expect(does(named(product))).toBe(true)
  })

  test('is marked as demo throughout, and its numbers belong to no company', () => {
    for (const { demo: isDemo, registration } of demo.book) {
      expect(isDemo).toBe(true)
      expect(registration.number ?? '9999999-').toMatch(/^9999999-/)
    }
  })

  test('has a product for a weed on a turf', () => {
    const names = (weed: string, turf: string) =>
      productsFor(demo.book, weed, turf).map(({ entry }) => entry.name)
    expect(names('nutsedge-yellow', 'kbg')).toEqual(['Tarnbrask 75 WDG'])
    expect(names('crab-smooth', 'zoysia-fine')).toEqual([
      'Fennowick 4 EC',
      'Dunvarrow 2 SC',
      'Harmottle 0.5 G',
    ])
    expect(names('crab-smooth', 'bermuda')).toEqual(['Fennowick 4 EC', 'Harmottle 0.5 G'])
    expect(names('white clover', 'st-augustine')).toEqual(['Gorseholt 25 L'])
    expect(names('kyllinga-green', 'creeping-bent')).toEqual([])
  })
})

describe('the demo crew', () => {
  const people = new Set(demo.people.map(({ key }) => key))

  test('has two leads, one of them licensed, and four others, one of whom reads Spanish', () => {
    const leads = demo.people.filter(({ role }) => role === 'lead')
    expect(leads).toHaveLength(2)
    expect(leads.filter(({ license }) => license)).toHaveLength(1)
    expect(demo.people.filter(({ role }) => role === 'crew')).toHaveLength(4)
    expect(demo.people.filter(({ language }) => language === 'es')).toHaveLength(1)
  })

  test('has six sites whose turfs the key knows as turf', () => {
    const turfs = new Set(taxa.filter(({ role }) => role !== 'weed').map(({ id }) => id))
    const areas = demo.sites.flatMap((site) => site.areas)
    expect(demo.sites).toHaveLength(6)
    for (const { turfs: grown, overseed } of areas) {
      for (const id of [...grown, ...(overseed ? [overseed.turf] : [])]) expect(turfs).toContain(id)
    }
    expect(areas.some(({ turfs: grown }) => grown.length === 0)).toBe(true)
  })

  test('has four sprayers, calibrated by different people, one long ago', () => {
    const calibrations = demo.sprayers.flatMap((sprayer) => sprayer.calibrations)
    const perThousand = calibrations.map(({ output }) => {
      const { value, unit, per } = outputOf(output)
      return convertNumber(value, unit, 'gal')
        .div(convertNumber(per.value, per.unit, '1000 ft2'))
        .toNumber()
    })
    expect(demo.sprayers).toHaveLength(4)
    expect(Math.min(...perThousand)).toBe(0.9)
    expect(Math.max(...perThousand)).toBe(2.3)
    expect(calibrations.every(({ person }) => people.has(person))).toBe(true)
    expect(calibrations.some(({ daysAgo }) => daysAgo > 365)).toBe(true)
  })

  test('has addresses that nobody lives at', () => {
    for (const { address } of demo.sites) expect(address).toMatch(/NC 000\d\d$/)
  })

  test('has past treatments on areas that are there, with lines that allow their rates', () => {
    for (const past of demo.treatments) {
      const area = demo.sites
        .find(({ name }) => name === past.site)
        ?.areas.find(({ name }) => name === past.area)
      expect(area, `${past.site}, ${past.area}`).toBeDefined()
      expect(people).toContain(past.person)
      expect(big(past.treatedFt2).lte(area?.squareFeet ?? 0)).toBe(true)
      expect(named(past.product).rateLines.map(({ id }) => id)).toContain(past.line)
    }
  })
})

/** The demo season as the label sees it today: which outcome fires where. */
const season: readonly [
  product: string,
  site: string,
  area: string,
  asked: Partial<Situation>,
  stands: string[],
][] = [
  [
    'Tarnbrask 75 WDG',
    'Fallowquay Ballpark',
    'Infield',
    {},
    ['refusal label.interval', 'heads-up label.year-nearly', 'heads-up label.adjuvant-needed-rate'],
  ],
  [
    'Tarnbrask 75 WDG',
    'Tolverdine Office Park',
    'North lawn',
    {},
    ['heads-up label.year-nearly', 'heads-up label.adjuvant-needed-rate'],
  ],
  ['Tarnbrask 75 WDG', 'Harbor Cottages', 'Shore lawn', {}, ['heads-up label.adjuvant-needed-rate']],
  [
    'Tarnbrask 75 WDG',
    'Harbor Cottages',
    'Path strip',
    {},
    ['hold label.turf-unknown', 'heads-up label.adjuvant-needed-rate'],
  ],
  [
    'Dunvarrow 2 SC',
    'Fallowquay Ballpark',
    'Outfield',
    { line: 'young-crab', weed: 'crab-smooth' },
    ['refusal label.turf-excluded', 'refusal label.turf-not-listed'],
  ],
  [
    'Bellstrake 3 L',
    'Plimmet Street House',
    'Front lawn',
    { season: 'summer', weed: 'dandelion', treatment: 'repeat' },
    [],
  ],
  [
    'Bellstrake 3 L',
    'Tolverdine Office Park',
    'South bank',
    { line: 'cool-fall', weed: 'dandelion' },
    ['refusal label.turf-excluded', 'refusal label.turf-not-listed'],
  ],
  [
    'Harmottle 0.5 G',
    'Fallowquay Ballpark',
    'Outfield',
    { weed: 'crab-smooth' },
    ['refusal label.interval', 'heads-up label.year-nearly', 'heads-up label.group-again'],
  ],
  [
    'Cawderly Spot',
    'Wrennoch Chapel',
    'Chapel green',
    { weed: 'dallisgrass' },
    [
      'refusal label.treatments-used-up',
      'heads-up label.confirm-due',
      'heads-up label.group-again',
      'heads-up label.adjuvant-needed-rate',
    ],
  ],
  [
    'Stilbrack 41 SL',
    'Fallowquay Ballpark',
    'Outfield',
    { weed: 'annual-blue', dormant: [] },
    ['refusal label.dormant-only', 'heads-up label.non-selective'],
  ],
  [
    'Yarvendel 50 WG',
    'Fallowquay Ballpark',
    'Outfield',
    { weed: 'goosegrass', licensed: false },
    ['refusal label.restricted-use', 'hold label.confirm-overdue'],
  ],
  ['Gorseholt 25 L', 'Harbor Cottages', 'Shore lawn', { weed: 'dandelion' }, []],
]

test.each(season)('%s on %s, %s', (product, siteName, areaName, asked, stands) => {
  const entry = named(product)
  const area = demo.sites.find(({ name }) => name === siteName)?.areas.find(({ name }) => name === areaName)
  const past = demo.treatments.filter((one) => one.site === siteName && one.area === areaName)
  const turfs = [...(area?.turfs ?? []), ...(area?.overseed ? [area.overseed.turf] : [])]
  const verdict = mayI(
    entry,
    situation({
      turfs,
      today: TODAY,
      lastConfirmedOn: addDays(TODAY, -confirmedDaysAgo(demo.confirmations, product)),
      treatments: past.map((one) => treatment(named(one.product), addDays(TODAY, -one.daysAgo), one.rate)),
      state: demo.crew.state,
      ...asked,
    }),
  )
  expect(standing(verdict)).toEqual(stands)
})
