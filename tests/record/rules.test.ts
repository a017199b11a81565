import { readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { rateOf } from '#src/label/figures.ts'
import { projectRoot } from '#src/project.ts'
import { notRecorded } from '#src/record/not-recorded.ts'
import type { RecordDraft } from '#src/record/record.ts'
import { recordRules } from '#src/record/rules/all.ts'
import type { RecordContext } from '#src/record/rules/rule.ts'
import { entry, treatment } from '../label/build.ts'
import { at, context, draft, english, product, spanish, units, without } from './build.ts'

/** Rules that no look at one record can keep, and where they are kept. */
const ELSEWHERE: Readonly<Record<string, readonly string[]>> = {
  // A kept record changes by an amendment only.
  V42: ['tests/record/amend.test.ts'],
  // Whoever asks repeats the numbers before they are kept.
  V45: ['tests/commands/log.test.ts'],
}

const rate = (text: string) => rateOf({ form: 'dry' }, text)
const yearly = entry({
  limits: { perYear: [{ rates: ['0.6 oz wt/1000 ft2'], period: 'calendar', counts: 'product' }] },
})
const spaced = entry({ limits: { interval: [{ days: 28, counts: 'product' }] } })
const wind = (value: string) => [{ value: { value, unit: 'mph' } as const, takenAt: at('2025-06-30 09:10') }]
const heat = (value: string) => [{ value: { value, unit: 'F' } as const, takenAt: at('2025-06-30 09:10') }]
const demoPerson = { name: 'Demo Person Quillfern' }
const spots = { coverage: 'spots', placeWords: english('eight spots along the back fence') } as const

interface Row {
  readonly rule: string
  readonly what: string
  readonly given: RecordDraft
  readonly known?: RecordContext
  /** Ids of what the rule says, with its weight. */
  readonly says: readonly string[]
}

/** What nothing is wrong with has no row for every rule: the first test below holds the whole draft against all. */
const rows: readonly Row[] = [
  { rule: 'V1', what: 'no day', given: without('date'), says: ['problem record.missing'] },
  {
    rule: 'V1',
    what: 'a day not known',
    given: draft({ date: notRecorded }),
    says: ['problem record.not-known'],
  },
  {
    rule: 'V1',
    what: 'a day to come',
    given: draft({ date: '2025-07-01' }),
    says: ['problem record.v1-future'],
  },
  { rule: 'V2', what: 'no start', given: without('startedAt'), says: ['problem record.missing'] },
  {
    rule: 'V2',
    what: 'an end at the start',
    given: draft({ endedAt: at('2025-06-30 09:15') }),
    says: ['problem record.v2-order'],
  },
  {
    rule: 'V2',
    what: 'a start on another day',
    given: draft({ startedAt: at('2025-06-29 09:15') }),
    says: ['problem record.v2-other-day'],
  },
  {
    rule: 'V2',
    what: 'a start to come',
    given: draft({ startedAt: at('2025-06-30 10:30'), endedAt: at('2025-06-30 11:00') }),
    says: ['problem record.v2-future'],
  },
  {
    rule: 'V2',
    what: 'an end after midnight',
    given: draft({ endedAt: at('2025-07-01 00:30') }),
    says: ['problem record.v2-night'],
  },
  {
    rule: 'V2',
    what: 'an end after midnight of night work',
    given: draft({ endedAt: at('2025-07-01 00:30'), nightWork: true }),
    says: [],
  },
  {
    rule: 'V3',
    what: 'the day after, where the same day is asked',
    given: draft(),
    known: context({ state: 'OH', writtenAt: at('2025-07-01 08:00') }),
    says: ['warn record.late'],
  },
  {
    rule: 'V3',
    what: 'fifteen days later with no note',
    given: draft(),
    known: context({ state: 'MN', writtenAt: at('2025-07-15 08:00') }),
    says: ['warn record.late', 'problem record.v3-note'],
  },
  {
    rule: 'V3',
    what: 'fifteen days later with a note',
    given: draft({ lateNote: { by: demoPerson, words: english('phone was lost') } }),
    known: context({ state: 'MN', writtenAt: at('2025-07-15 08:00') }),
    says: ['warn record.late'],
  },
  {
    rule: 'V4',
    what: 'no product',
    given: without('products'),
    says: Array(3).fill('problem record.missing'),
  },
  {
    rule: 'V4',
    what: 'a product that the book does not have',
    given: draft({ products: [product({ name: 'Unheard 1' })] }),
    says: ['problem record.v4-not-in-book'],
  },
  {
    rule: 'V4',
    what: 'actives that are more than the whole',
    given: draft({
      products: [
        product({
          actives: [
            { name: 'inventol', strength: '75 % ai', percent: '75' },
            { name: 'imaginex', strength: '26 % ai', percent: '26' },
          ],
        }),
      ],
    }),
    says: ['problem record.v4-above-100'],
  },
  {
    rule: 'V5',
    what: 'no number at all',
    given: draft({ products: [product({ registration: 'label on the jug' })] }),
    says: ['problem record.v5-form'],
  },
  {
    rule: 'V5',
    what: 'the number of another product',
    given: draft({ products: [product({ registration: '9999999-2' })] }),
    says: ['problem record.v5-other'],
  },
  {
    rule: 'V5',
    what: 'the same number with lead-in, dash and revision',
    given: draft({ products: [product({ registration: 'EPA Reg. No. 9999999–1-AA' })] }),
    says: [],
  },
  {
    rule: 'V6',
    what: 'a file symbol',
    given: draft({ products: [product({ registration: '9999999-RE' })] }),
    says: ['problem record.v6-file-symbol'],
  },
  {
    rule: 'V7',
    what: 'an establishment number',
    given: draft({ products: [product({ registration: '9999999-CA-1' })] }),
    says: ['problem record.v7-establishment'],
  },
  {
    rule: 'V8',
    what: 'a state number that the label prints, in California',
    given: draft({ products: [product({ stateNumber: notRecorded })] }),
    known: context({
      state: 'CA',
      label: entry({ registration: { number: '9999999-1', stateNumber: 'DEMO-1' } }),
    }),
    says: ['problem record.not-known'],
  },
  {
    rule: 'V8',
    what: 'a use that only a special local need allows',
    given: draft(),
    known: context({
      label: entry({ registration: { number: '9999999-1', specialLocalNeed: 'NC-250003' } }),
    }),
    says: ['problem record.v8-local-need'],
  },
  {
    rule: 'V8',
    what: 'a special local need of another state',
    given: draft({ products: [product({ specialLocalNeed: 'GA-250003' })] }),
    known: context({ state: 'TX' }),
    says: ['problem record.v8-elsewhere'],
  },
  {
    rule: 'V8',
    what: 'a special local need that is none',
    given: draft({ products: [product({ specialLocalNeed: 'local' })] }),
    says: ['problem record.v8-local-need-form'],
  },
  { rule: 'V9', what: 'no grass', given: without('turfs'), says: ['problem record.missing'] },
  {
    rule: 'V9',
    what: 'a grass that the label does not list',
    given: draft({ turfs: ['bermuda'] }),
    known: context({ asked: { turfs: ['bermuda'] } }),
    says: ['problem record.label-says'],
  },
  { rule: 'V10', what: 'no weed', given: without('targets'), says: ['problem record.missing'] },
  {
    rule: 'V10',
    what: 'an unknown weed',
    given: draft({ targets: [{ words: 'unknown' }] }),
    says: ['problem record.v10-unknown'],
  },
  {
    rule: 'V10',
    what: 'a weed that is not on the label, in New York',
    given: draft(),
    known: context({ state: 'NY', asked: { weed: 'dandelion', state: 'NY' } }),
    says: ['problem record.label-says'],
  },
  {
    rule: 'V11',
    what: 'more than the label allows',
    given: draft(),
    known: context({ asked: { rate: rate('0.6 oz wt/1000 ft2') } }),
    says: ['problem record.label-says'],
  },
  {
    rule: 'V12',
    what: 'less than the label says',
    given: draft(),
    known: context({ asked: { rate: rate('0.2 oz wt/1000 ft2') } }),
    says: ['warn record.label-says'],
  },
  {
    rule: 'V12',
    what: 'less than a label that forbids it',
    given: draft(),
    known: context({
      label: entry({ limits: { lessForbidden: {} } }),
      asked: { rate: rate('0.2 oz wt/1000 ft2') },
    }),
    says: ['problem record.label-says'],
  },
  {
    rule: 'V13',
    what: 'more than is left of the year',
    given: draft(),
    known: context({
      label: yearly,
      asked: {
        rate: rate('0.4 oz wt/1000 ft2'),
        treatments: [treatment(yearly, '2025-03-01', '0.3 oz wt/1000 ft2')],
      },
    }),
    says: ['problem record.label-says'],
  },
  {
    rule: 'V14',
    what: 'before the interval is over',
    given: draft(),
    known: context({
      label: spaced,
      asked: { treatments: [treatment(spaced, '2025-06-10', '0.4 oz wt/1000 ft2')] },
    }),
    says: ['problem record.label-says'],
  },
  {
    rule: 'V15',
    what: 'too little spray',
    given: draft(),
    known: context({
      label: entry({ limits: { minimumOutput: { output: '2 gal/1000 ft2' } } }),
      asked: { output: { value: '1', unit: 'gal', per: { value: '1', unit: '1000 ft2' } } },
    }),
    says: ['problem record.label-says'],
  },
  // 0.4 oz on 1,000 ft² are 2 oz on 5,000; 2.1 is 5 % more, 2.11 is past it.
  {
    rule: 'V16',
    what: 'no amount',
    given: draft({ products: [product({ amount: notRecorded })] }),
    says: ['problem record.not-known'],
  },
  {
    rule: 'V16',
    what: 'five percent more',
    given: draft({ products: [product({ amount: units.ounces('2.1') })] }),
    says: [],
  },
  {
    rule: 'V16',
    what: 'more than that',
    given: draft({ products: [product({ amount: units.ounces('2.11') })] }),
    says: ['problem record.v16-differs'],
  },
  {
    rule: 'V16',
    what: 'more than that, and why',
    given: draft({
      products: [product({ amount: units.ounces('2.11') })],
      notes: english('a spill on the tarp'),
    }),
    says: ['warn record.v16-differs'],
  },
  {
    rule: 'V16',
    what: 'nothing',
    given: draft({ products: [product({ amount: units.ounces('0') })] }),
    says: ['problem record.v16-zero'],
  },
  // 75 % of 2 oz are 1.5 oz of active ingredient.
  {
    rule: 'V17',
    what: 'active ingredient',
    given: draft({ products: [product({ amount: units.ounces('1.5') })] }),
    says: ['problem record.v17-active'],
  },
  {
    rule: 'V17',
    what: 'the whole mix',
    given: draft({ products: [product({ amount: units.gallons('5'), form: 'liquid' })] }),
    says: ['problem record.v17-mix'],
  },
  {
    rule: 'V18',
    what: 'fluid ounces of something dry',
    given: draft({ products: [product({ amount: { value: '2', unit: 'fl oz' } })] }),
    says: ['problem record.v18-dry'],
  },
  {
    rule: 'V18',
    what: 'a weight of a liquid',
    given: draft({ products: [product({ form: 'liquid' })] }),
    says: ['problem record.v18-liquid'],
  },
  { rule: 'V19', what: 'no area', given: without('treatedArea'), says: ['problem record.missing'] },
  {
    rule: 'V19',
    what: 'an area of zero',
    given: draft({ treatedArea: units.square('0') }),
    says: ['problem record.v19-zero'],
  },
  // 1 acre is 43,560 ft² (NIST Handbook 44, Appendix C).
  {
    rule: 'V19',
    what: 'an acre on a property of that size',
    given: draft({ treatedArea: { value: '1', unit: 'acre' } }),
    known: context({ propertyFt2: '43560' }),
    says: [],
  },
  {
    rule: 'V19',
    what: 'more than a tenth above the property',
    given: draft({ treatedArea: { value: '1.11', unit: 'acre' } }),
    known: context({ propertyFt2: '43560' }),
    says: ['problem record.v19-larger'],
  },
  // One tenth of an acre is 4,356 ft².
  {
    rule: 'V20',
    what: 'spots with a description, below a tenth of an acre',
    given: { ...without('placeAddress'), ...spots, treatedArea: units.square('4355') },
    says: [],
  },
  {
    rule: 'V20',
    what: 'spots of a tenth of an acre in the day',
    given: { ...without('placeAddress'), ...spots, treatedArea: units.square('4000') },
    known: context({ spotFt2Elsewhere: '356' }),
    says: ['problem record.v20-too-much'],
  },
  {
    rule: 'V20',
    what: 'spots in a greenhouse',
    given: { ...without('placeAddress'), ...spots, treatedArea: units.square('40'), grounds: 'greenhouse' },
    says: ['problem record.v20-grounds'],
  },
  {
    rule: 'V20',
    what: 'spots with no description',
    given: { ...without('placeWords'), coverage: 'spots' },
    says: ['problem record.missing'],
  },
  {
    rule: 'V21',
    what: '"spot application" and no more',
    given: { ...without('placeAddress'), placeWords: english('spot application') },
    says: ['problem record.v21-vague'],
  },
  {
    rule: 'V21',
    what: 'a few letters',
    given: { ...without('placeAddress'), placeWords: english('by shed') },
    says: ['problem record.missing', 'problem record.v21-vague'],
  },
  {
    rule: 'V22',
    what: 'no ZIP',
    given: draft({ customerAddress: { street: '12 Demo Lane', town: 'Ospelwick', state: 'NC' } }),
    says: ['problem record.v22-zip'],
  },
  { rule: 'V22', what: 'no customer', given: without('customerName'), says: ['problem record.missing'] },
  {
    rule: 'V22',
    what: 'no customer of the crew’s own ground',
    given: { ...without('customerName'), forHire: false },
    says: [],
  },
  {
    rule: 'V23',
    what: 'no wind, where the state asks for it',
    given: without('windSpeed', 'windFrom'),
    known: context({ state: 'TX' }),
    says: ['problem record.missing', 'problem record.missing'],
  },
  {
    rule: 'V23',
    what: 'no wind, where nobody asks',
    given: without('windSpeed', 'windFrom'),
    known: context({ state: 'NY' }),
    says: ['warn record.v23-advised'],
  },
  {
    rule: 'V23',
    what: 'still air from nowhere',
    given: { ...without('windFrom'), windSpeed: wind('0') },
    says: [],
  },
  {
    rule: 'V23',
    what: 'more wind than the label allows',
    given: draft(),
    known: context({
      label: entry({ limits: { wind: { most: '10 mph' } } }),
      asked: { conditions: { wind: { value: '12', unit: 'mph' } } },
    }),
    says: ['problem record.label-says'],
  },
  {
    rule: 'V24',
    what: 'no temperature, where the state asks for it',
    given: without('temperature'),
    known: context({ state: 'MN' }),
    says: ['problem record.missing'],
  },
  {
    rule: 'V24',
    what: 'warmer than the label allows',
    given: draft(),
    known: context({
      label: entry({ limits: { temperature: { most: '85 F' } } }),
      asked: { conditions: { temperature: { value: '90', unit: 'F' } } },
    }),
    says: ['problem record.label-says'],
  },
  { rule: 'V25', what: '60 mph', given: draft({ windSpeed: wind('60') }), says: [] },
  { rule: 'V25', what: '61 mph', given: draft({ windSpeed: wind('61') }), says: ['problem record.v25-wind'] },
  { rule: 'V25', what: '-10 °F', given: draft({ temperature: heat('-10') }), says: [] },
  {
    rule: 'V25',
    what: '-11 °F',
    given: draft({ temperature: heat('-11') }),
    says: ['problem record.v25-temperature'],
  },
  {
    rule: 'V25',
    what: '121 °F',
    given: draft({ temperature: heat('121') }),
    says: ['problem record.v25-temperature'],
  },
  {
    rule: 'V25',
    what: 'still air that nobody looked at',
    given: { ...without('inversion'), windSpeed: wind('1') },
    says: ['problem record.missing'],
  },
  {
    rule: 'V25',
    what: 'still air with smoke in a layer',
    given: draft({ windSpeed: wind('1'), inversion: ['smoke-layer'] }),
    says: ['warn record.v25-inversion'],
  },
  {
    rule: 'V26',
    what: 'no rain, where the label wants dry hours',
    given: without('rain'),
    known: context({ label: entry({ limits: { rainFree: { hours: 6 } } }) }),
    says: ['problem record.missing'],
  },
  {
    rule: 'V26',
    what: 'rain within the dry hours',
    given: draft(),
    known: context({
      label: entry({ limits: { rainFree: { hours: 6 } } }),
      asked: { conditions: { rainInHours: 2 } },
    }),
    says: ['problem record.label-says'],
  },
  { rule: 'V27', what: 'no method', given: without('method'), says: ['problem record.missing'] },
  {
    rule: 'V27',
    what: 'a drone',
    given: draft({ method: { kind: 'drone' } }),
    says: ['problem record.v27-out-of-scope'],
  },
  {
    rule: 'V27',
    what: 'chemigation',
    given: draft({ method: { kind: 'chemigation' } }),
    says: ['problem record.v27-out-of-scope'],
  },
  {
    rule: 'V27',
    what: 'another way without words',
    given: draft({ method: { kind: 'other' } }),
    says: ['problem record.v27-words'],
  },
  {
    rule: 'V28',
    what: 'no mix, where the state asks for it',
    given: without('totalMix'),
    known: context({ state: 'TX' }),
    says: ['problem record.missing'],
  },
  {
    rule: 'V28',
    what: 'no recipe in New Jersey',
    given: without('recipe'),
    known: context({ state: 'NJ' }),
    says: ['problem record.missing'],
  },
  {
    rule: 'V28',
    what: 'something other than water, not named',
    given: draft({ carrier: { kind: 'other' } }),
    says: ['problem record.v28-diluent'],
  },
  {
    rule: 'V29',
    what: 'more drawn than made',
    given: draft({ mixDrawn: units.gallons('6') }),
    says: ['problem record.v29-negative'],
  },
  {
    rule: 'V29',
    what: 'more drawn by all the sites than made',
    given: draft({ mixDrawn: units.gallons('3') }),
    known: context({ drawnElsewhere: units.gallons('3') }),
    says: ['problem record.v29-negative'],
  },
  {
    rule: 'V29',
    what: 'a leftover that nobody wrote down',
    given: { ...without('leftover'), mixDrawn: units.gallons('4') },
    says: ['problem record.v29-left'],
  },
  {
    rule: 'V29',
    what: 'another leftover than the mix leaves',
    given: draft({ mixDrawn: units.gallons('4'), leftover: units.gallons('0.5') }),
    says: ['problem record.v29-differs'],
  },
  {
    rule: 'V29',
    what: 'a leftover in other units, and no fate',
    given: { ...without('leftoverFate'), mixDrawn: units.gallons('4'), leftover: { value: '4', unit: 'qt' } },
    says: ['problem record.missing'],
  },
  {
    rule: 'V30',
    what: 'one name',
    given: draft({ applicator: { name: 'Crew' } }),
    says: ['problem record.v30-name'],
  },
  { rule: 'V30', what: 'no license asked for', given: without('license'), says: ['problem record.missing'] },
  {
    rule: 'V30',
    what: 'a license that ran out the day before',
    given: draft({ license: { number: 'DEMO-L1', expiresOn: '2025-06-29' } }),
    says: ['problem record.v30-expired'],
  },
  {
    rule: 'V30',
    what: 'a license that runs out on the day',
    given: draft({ license: { number: 'DEMO-L1', expiresOn: '2025-06-30' } }),
    says: [],
  },
  {
    rule: 'V30',
    what: 'a category that does not cover turf',
    given: draft(),
    known: context({ settings: { ...context().settings, turfCategories: ['3A'] } }),
    says: ['problem record.v30-category'],
  },
  {
    rule: 'V31',
    what: 'no license and nobody asked for a supervisor',
    given: { ...without('supervisor'), license: { none: true } },
    says: ['problem record.missing'],
  },
  {
    rule: 'V31',
    what: 'no license and no supervisor',
    given: draft({ license: { none: true } }),
    says: ['problem record.v31-nobody'],
  },
  {
    rule: 'V31',
    what: 'a supervisor whose license ran out',
    given: draft({
      license: { none: true },
      supervisor: { ...demoPerson, license: { number: 'DEMO-L2', expiresOn: '2025-01-01' } },
    }),
    says: ['problem record.v30-expired'],
  },
  {
    rule: 'V32',
    what: 'a restricted-use product and nobody with a license',
    given: draft({ license: { none: true }, products: [product({ restricted: true })] }),
    says: ['problem record.v32-restricted'],
  },
  {
    rule: 'V32',
    what: 'a product that only the label book knows to be restricted',
    given: draft({ license: { none: true }, products: [product({ restricted: notRecorded })] }),
    known: context({ label: entry({ restricted: true }) }),
    says: ['problem record.v32-restricted'],
  },
  { rule: 'V33', what: 'no protective equipment', given: without('ppe'), says: ['problem record.missing'] },
  {
    rule: 'V33',
    what: 'unconfirmed',
    given: draft({ ppe: { text: ['Gloves'], confirmed: false } }),
    says: ['problem record.v33-unconfirmed'],
  },
  {
    rule: 'V33',
    what: 'less than the label asks for',
    given: draft({ ppe: { text: ['Boots'], confirmed: true } }),
    says: ['problem record.v33-text'],
  },
  { rule: 'V34', what: 'no keep-off text', given: without('keepOff'), says: ['problem record.missing'] },
  {
    rule: 'V34',
    what: 'a customer who was not told',
    given: draft({ customerTold: false }),
    says: ['problem record.v34-not-told'],
  },
  {
    rule: 'V35',
    what: 'signs not asked about in Illinois',
    given: without('posting'),
    known: context({ state: 'IL' }),
    says: ['problem record.missing'],
  },
  {
    rule: 'V35',
    what: 'no signs in Illinois',
    given: draft({ posting: { done: false } }),
    known: context({ state: 'IL' }),
    says: ['problem record.v35-not-posted'],
  },
  {
    rule: 'V35',
    what: 'no signs in Texas',
    given: draft({ posting: { done: false } }),
    known: context({ state: 'TX' }),
    says: [],
  },
  {
    rule: 'V36',
    what: 'neighbors not yet asked about in New York',
    given: draft({ notices: [{ to: 'customer', done: true }] }),
    known: context({ state: 'NY' }),
    says: ['warn record.v36-ask'],
  },
  {
    rule: 'V36',
    what: 'a neighbor not told in New York',
    given: draft({
      notices: [
        { to: 'customer', done: true },
        { to: 'neighbor', done: false },
      ],
    }),
    known: context({ state: 'NY' }),
    says: ['problem record.v36-not-done'],
  },
  {
    rule: 'V36',
    what: 'an address on the registry in Wisconsin',
    given: draft({ notices: [{ to: 'registry', done: false }] }),
    known: context({ state: 'WI' }),
    says: ['problem record.v36-not-done'],
  },
  {
    rule: 'V37',
    what: 'no copy on the day after, where it is due at completion',
    given: without('customerCopy'),
    known: context({ state: 'WI', now: at('2025-07-01 08:00') }),
    says: ['problem record.v37-overdue'],
  },
  {
    rule: 'V37',
    what: 'no copy on the day itself',
    given: without('customerCopy'),
    known: context({ state: 'WI' }),
    says: [],
  },
  {
    rule: 'V37',
    what: 'no copy thirty days on, by the federal statute',
    given: { ...without('customerCopy'), products: [product({ restricted: true })] },
    known: context({ state: 'TX', now: at('2025-07-30 08:00') }),
    says: [],
  },
  {
    rule: 'V37',
    what: 'no copy thirty-one days on, by the federal statute',
    given: { ...without('customerCopy'), products: [product({ restricted: true })] },
    known: context({ state: 'TX', now: at('2025-07-31 08:00') }),
    says: ['problem record.v37-overdue'],
  },
  {
    rule: 'V37',
    what: 'an e-mail with no consent',
    given: draft({ customerCopy: { sentOn: '2025-06-30', how: 'email' } }),
    known: context({ state: 'TX' }),
    says: ['problem record.v37-consent'],
  },
  {
    rule: 'V37',
    what: 'an e-mail with spoken consent in Wisconsin',
    given: draft({
      customerCopy: { sentOn: '2025-06-30', how: 'email' },
      consent: { given: true, on: '2025-06-01', how: 'spoken' },
    }),
    known: context({ state: 'WI' }),
    says: ['problem record.v37-written-consent'],
  },
  {
    rule: 'V37',
    what: 'an e-mail with written consent in Wisconsin',
    given: draft({
      customerCopy: { sentOn: '2025-06-30', how: 'email' },
      consent: { given: true, on: '2025-06-01', how: 'written' },
    }),
    known: context({ state: 'WI' }),
    says: [],
  },
  {
    rule: 'V38',
    what: 'no mixing place in Wisconsin',
    given: without('mixingPlace'),
    known: context({ state: 'WI' }),
    says: ['problem record.missing'],
  },
  {
    rule: 'V38',
    what: 'another place without words',
    given: draft({ mixingPlace: { at: 'other' } }),
    says: ['problem record.v38-where'],
  },
  {
    rule: 'V39',
    what: 'never asked',
    given: without('unusual'),
    known: context({ state: 'TX' }),
    says: ['problem record.missing'],
  },
  {
    rule: 'V39',
    what: 'something happened, and no more',
    given: draft({ unusual: { happened: true } }),
    says: ['problem record.v39-words', 'problem record.v39-incident'],
  },
  {
    rule: 'V39',
    what: 'something happened, with its incident',
    given: draft({ unusual: { happened: true, words: english('a hose burst'), incidentId: 3 } }),
    says: [],
  },
  {
    rule: 'V40',
    what: 'Spanish words in Ohio',
    given: draft({ notes: spanish('se rompió la manguera') }),
    known: context({ state: 'OH' }),
    says: ['problem record.v40-english'],
  },
  {
    rule: 'V40',
    what: 'Spanish words in Texas',
    given: draft({ notes: spanish('se rompió la manguera') }),
    known: context({ state: 'TX' }),
    says: ['warn record.v40-english'],
  },
  {
    rule: 'V40',
    what: 'Spanish words with their English',
    given: draft({ notes: { words: 'se rompió la manguera', language: 'es', english: 'the hose broke' } }),
    known: context({ state: 'OH' }),
    says: [],
  },
  {
    rule: 'V40',
    what: 'Spanish words deep inside',
    given: draft({ method: { kind: 'other', words: spanish('a mano') } }),
    known: context({ state: 'OH' }),
    says: ['problem record.v40-english'],
  },
  {
    rule: 'V41',
    what: 'several sites with no order',
    given: without('siteOrder'),
    known: context({ sitesOfMix: 3 }),
    says: ['problem record.v41-order'],
  },
  {
    rule: 'V41',
    what: 'the fourth of three',
    given: draft({ siteOrder: { place: 4, of: 3 } }),
    says: ['problem record.v41-beyond'],
  },
  { rule: 'V43', what: 'no day of keeping', given: without('keepUntil'), says: ['problem record.v43-keep'] },
  {
    rule: 'V43',
    what: 'a day too early',
    given: draft({ keepUntil: '2032-06-29' }),
    says: ['problem record.v43-keep'],
  },
  {
    rule: 'V44',
    what: 'no label version',
    given: draft({ products: [product({ label: notRecorded })] }),
    says: ['problem record.v44-version'],
  },
  {
    rule: 'V44',
    what: 'an entry last held against the label more than twelve months ago',
    given: draft(),
    known: context({ book: [{ entry: entry(), lastConfirmedOn: '2024-06-29' }] }),
    says: ['warn record.v44-old'],
  },
  {
    rule: 'V46',
    what: 'fertilizer with no record of its own',
    given: draft({ fertilizer: { applied: true } }),
    says: ['warn record.v46-own-record'],
  },
  {
    rule: 'V46',
    what: 'fertilizer with its record',
    given: draft({ fertilizer: { applied: true, ownRecord: 'F-1' } }),
    says: [],
  },
  {
    rule: 'V47',
    what: 'no droplet class, where the label fixes it',
    given: without('droplets'),
    known: context({ label: entry({ limits: { droplets: { classes: ['coarse'] } } }) }),
    says: ['problem record.missing'],
  },
  {
    rule: 'V47',
    what: 'finer drops than the label allows',
    given: draft({ droplets: 'fine' }),
    known: context({ label: entry({ limits: { droplets: { classes: ['medium', 'coarse'] } } }) }),
    says: ['problem record.v47-class'],
  },
  {
    rule: 'V48',
    what: 'a recheck before the interval is over',
    given: draft({ recheckOn: '2025-07-14' }),
    known: context({ label: spaced }),
    says: ['warn record.v48-look-only'],
  },
  {
    rule: 'V48',
    what: 'a recheck on the day the interval is over',
    given: draft({ recheckOn: '2025-07-28' }),
    known: context({ label: spaced }),
    says: [],
  },
]

const STATES = ['TX', 'CA', 'NY', 'OH', 'MN', 'WI', 'NJ', 'ME', 'MA', 'GA', 'IL', 'NC', 'MD', 'WA', undefined]

describe('the rules of a record', () => {
  test.each(STATES)('find nothing in a record with every field filled (%s)', (state) => {
    const known = context({ asked: {}, ...(state === undefined ? {} : { state }) })
    expect(recordRules.flatMap(({ check }) => check(draft(), known))).toEqual([])
  })

  test.each(rows)('$rule, $what', ({ rule, given, known = context(), says }) => {
    const found = recordRules.find(({ id }) => id === rule)?.check(given, known)
    expect(found?.map(({ weight, text }) => `${weight} ${text.say}`)).toEqual(says)
  })

  test('name a source each, stand in their order, and each is shown by a row', () => {
    const ids = recordRules.map(({ id }) => id)
    expect(recordRules.filter(({ source }) => source.length < 10)).toEqual([])
    expect(ids).toEqual([...ids].sort((a, b) => Number(a.slice(1)) - Number(b.slice(1))))
    expect(ids.filter((id) => !rows.some(({ rule, says }) => rule === id && says.length > 0))).toEqual([])
  })

  test('of the 48 that are published, those not here are kept elsewhere', () => {
    const all = Array.from({ length: 48 }, (_, n) => `V${n + 1}`)
    const here = new Set<string>(recordRules.map(({ id }) => id))
    expect(all.filter((id) => !here.has(id))).toEqual(Object.keys(ELSEWHERE))
  })

  test.each(Object.entries(ELSEWHERE))('%s is named by a test where it is kept', (id, files) => {
    const named = new RegExp(`(test|describe)\\('[^']*\\b${id}\\b`)
    for (const file of files) expect(readFileSync(path.join(projectRoot(), file), 'utf8')).toMatch(named)
  })
})

/** Situations in which an assistant refuses or holds, as far as a log can meet them, and the rule that finds them. */
const SITUATIONS: readonly { readonly what: string; readonly rule: string }[] = [
  { what: '2: no label, or not for this number', rule: 'V4' },
  { what: '3: above a label maximum or yearly total', rule: 'V11' },
  { what: '4: the interval is not over', rule: 'V14' },
  { what: '5: grass not on the label', rule: 'V9' },
  { what: '6: grass unknown', rule: 'V9' },
  { what: '7: weed unknown', rule: 'V10' },
  { what: '8: weed not on the label', rule: 'V10' },
  { what: '9: restricted use and nobody certified', rule: 'V32' },
  { what: '10: license missing, run out, wrong category', rule: 'V30' },
  { what: '11: file symbol', rule: 'V6' },
  { what: '12: wind above the label', rule: 'V23' },
  { what: '13: still air with signs of an inversion', rule: 'V25' },
  { what: '15: temperature above the label', rule: 'V24' },
  { what: '17: rain within the dry hours', rule: 'V26' },
  { what: '20: protective equipment not confirmed', rule: 'V33' },
  { what: '23: signs or notice not done', rule: 'V35' },
  { what: '25: leftover', rule: 'V29' },
  { what: '28: spill', rule: 'V39' },
  { what: '32: label and record disagree', rule: 'V5' },
  { what: '34: aerial, drone, chemigation', rule: 'V27' },
]

test.each(SITUATIONS)('situation $what is found by $rule', ({ rule }) => {
  const found = rows.filter((row) => row.rule === rule).flatMap(({ says }) => says)
  expect(found.filter((said) => said.startsWith('problem'))).not.toEqual([])
})
