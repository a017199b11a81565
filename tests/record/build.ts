import { mayI } from '#src/label/allow.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { Situation } from '#src/label/situation.ts'
import type { ApplicationRecord, RecordDraft } from '#src/record/record.ts'
import { ruleSetFor } from '#src/record/rule-set.ts'
import type { RecordContext } from '#src/record/rules/rule.ts'
import { recordDefaults } from '#src/record/rules/rule.ts'
import { sha256 } from '#src/record/seal.ts'
import type { FreeText, Moment } from '#src/record/values.ts'
import { loadStateRules } from '../../data/states/load.ts'
import { entry, situation } from '../label/build.ts'

export const tables = loadStateRules()

/** A moment on the crew's clock in New York's summer, four hours behind UTC. */
export function at(local: string): Moment {
  return { atMs: Date.parse(`${local.replace(' ', 'T')}:00-04:00`), local, zone: 'America/New_York' }
}

export const english = (words: string): FreeText => ({ words, language: 'en' })
export const spanish = (words: string): FreeText => ({ words, language: 'es' })

const ounces = (value: string) => ({ value, unit: 'oz wt' }) as const
const gallons = (value: string) => ({ value, unit: 'gal' }) as const
const square = (value: string) => ({ value, unit: 'ft2' }) as const
const per1000 = (value: string) =>
  ({ kind: 'area', value, unit: 'oz wt', of: 'product', per: { value: '1', unit: '1000 ft2' } }) as const
export const units = { ounces, gallons, square, per1000 }

type Product = Exclude<RecordDraft['products'], undefined | { removed: true } | { notRecorded: true }>[number]

/** 0.4 oz/1000 ft² on 5,000 ft² are 2 oz of an invented dry product, by hand. */
export function product(parts: Partial<Product> = {}): Product {
  return {
    name: 'Invented 75 WDG',
    form: 'dry',
    registration: '9999999-1',
    stateNumber: 'DEMO-1',
    restricted: false,
    label: { version: 'A', date: '2024-11-04', page: '4', entryInterval: false },
    actives: [{ name: 'inventol', strength: '75 % ai', percent: '75' }],
    rate: per1000('0.4'),
    amount: ounces('2'),
    line: 'sedges',
    ...parts,
  }
}

/** An invented job with every field filled: five thousand square feet of an invented customer's lawn. */
export function draft(parts: Partial<RecordDraft> = {}): RecordDraft {
  const reading = at('2025-06-30 09:10')
  const read = <T>(value: T) => [{ value, takenAt: reading }]
  return {
    mixNumber: 'M-1',
    mixedAt: at('2025-06-30 08:40'),
    mixMade: gallons('5'),
    mixDrawn: gallons('5'),
    recipe: { concentrate: ounces('2'), diluent: gallons('5') },
    siteOrder: { place: 1, of: 1 },
    leftover: gallons('0'),
    leftoverFate: { fate: 'next site' },
    mixingPlace: { at: 'shop' },
    carrier: { kind: 'water' },
    carrierAmount: gallons('5'),
    totalMix: gallons('5'),
    adjuvants: [],
    date: '2025-06-30',
    startedAt: at('2025-06-30 09:15'),
    endedAt: at('2025-06-30 09:50'),
    forHire: true,
    customerName: 'Demo customer Ottiline Fenn',
    customerAddress: { street: '12 Demo Lane', town: 'Ospelwick', state: 'NC', zip: '00011' },
    placeAddress: { street: '12 Demo Lane', town: 'Ospelwick', state: 'NC', zip: '00011' },
    county: 'Demo County',
    placeWords: english('front lawn and strip by the drive'),
    use: 'lawn',
    grounds: 'turf',
    turfs: ['tall-fescue'],
    treatedArea: square('5000'),
    areaBasis: 'measured',
    coverage: 'whole area',
    sameGround: 'first time',
    targets: [{ words: 'yellow nutsedge', taxon: 'nutsedge-yellow' }],
    products: [product()],
    fertilizer: { applied: false },
    method: { kind: 'backpack sprayer' },
    nozzle: 'demo flat fan',
    droplets: 'medium',
    windSpeed: read({ value: '5', unit: 'mph' } as const),
    windFrom: read('SW' as const),
    temperature: read({ value: '74', unit: 'F' } as const),
    humidityPercent: read('55'),
    rain: read({ hoursSince: '30', hoursUntil: '24' }),
    inversion: [],
    applicator: { name: 'Demo Person Quillfern' },
    license: { number: 'DEMO-L1', expiresOn: '2026-12-31', category: '3B' },
    supervisor: { none: true },
    helpers: [],
    training: { on: '2025-03-01', by: 'Demo Trainer Marl', title: 'Demo training' },
    company: 'Demo Sward Crew',
    companyAddress: { street: '1 Demo Road', town: 'Ospelwick', state: 'NC', zip: '00011' },
    handsWashed: true,
    ppe: { text: ['Gloves'], confirmed: true },
    keepOff: 'Keep off until dry.',
    keepOffUntil: { untilDry: true },
    customerTold: true,
    posting: { done: true, at: reading },
    notices: [
      { to: 'customer', done: true },
      { to: 'neighbor', done: true },
      { to: 'registry', done: true },
    ],
    customerCopy: { sentOn: '2025-06-30', how: 'paper' },
    unusual: { happened: false },
    keepUntil: '2032-06-30',
    ...parts,
  }
}

/** The draft without some of its fields. */
export function without(...fields: readonly (keyof RecordDraft)[]): RecordDraft {
  return Object.fromEntries(Object.entries(draft()).filter(([field]) => !fields.some((one) => one === field)))
}

export function record(parts: Partial<ApplicationRecord> = {}): ApplicationRecord {
  return {
    number: 'R-1',
    writtenAt: at('2025-06-30 10:00'),
    writtenBy: { name: 'Demo Person Quillfern', id: 7 },
    writtenThrough: 'practice room',
    chatLanguage: 'en',
    rules: { table: 'NC', state: 'NC' },
    ...draft(),
    ...parts,
  }
}

interface ContextParts extends Partial<Omit<RecordContext, 'rules' | 'verdicts'>> {
  readonly state?: string
  readonly label?: LabelEntry
  /** When given, the label is asked, and its verdict is in the context. */
  readonly asked?: Partial<Situation>
}

/** What is known around {@link draft}: written an hour later, in a state of its own table or by the strict one. */
export function context(parts: ContextParts = {}): RecordContext {
  const { state, label = entry(), asked, ...rest } = parts
  const verdicts = new Map(asked === undefined ? [] : [[label.name, mayI(label, situation(asked))]])
  return {
    now: at('2025-06-30 10:00'),
    writtenAt: at('2025-06-30 10:00'),
    rules: ruleSetFor(state, tables),
    settings: recordDefaults,
    book: [{ entry: label, lastConfirmedOn: '2025-05-01' }],
    verdicts,
    ...rest,
  }
}

/** Salts that are the same in every run: the tests need no secret. */
export const saltOf = (path: string) => sha256(`demo salt ${path}`)
