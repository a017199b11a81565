import type { ElementId } from './element-ids.ts'

/** One field of a short form and the elements that it fills. */
export interface StepField {
  readonly name: string
  readonly elements: readonly ElementId[]
  /** Always asked once, whatever the tables say. */
  readonly always?: true
}

export interface LogStep {
  readonly id: string
  readonly fields: readonly StepField[]
}

const field = (name: string, ...elements: readonly ElementId[]): StepField => ({ name, elements })

/** A messenger's form takes five fields at most. */
export const MOST_FIELDS = 5

/**
 * The short forms of a log, in the order in which they are asked. Hands first: a phone is touched with clean hands.
 * Then whether something went wrong, because nothing else matters if it did.
 */
export const LOG_STEPS: readonly LogStep[] = [
  { id: 'hands', fields: [{ name: 'handsWashed', elements: [], always: true }] },
  { id: 'unusual', fields: [field('unusual', 'unusual')] },
  {
    id: 'product',
    fields: [
      field('product', 'product', 'actives'),
      field('registration', 'registration', 'state-number'),
      field('amount', 'amount'),
      field('rate', 'rate', 'concentration'),
      field('targets', 'target'),
    ],
  },
  {
    id: 'when',
    fields: [field('date', 'date'), field('startedAt', 'start-time'), field('endedAt', 'end-time')],
  },
  {
    id: 'place',
    fields: [
      field('place', 'place', 'place-zip'),
      field('placeWords', 'place-specific', 'extent'),
      field('site', 'site'),
      field('treatedArea', 'area'),
      field('county', 'county'),
    ],
  },
  {
    id: 'weather',
    fields: [
      field('windSpeed', 'wind-speed'),
      field('windFrom', 'wind-from'),
      field('temperature', 'temperature'),
      field('humidityPercent', 'humidity'),
      field('rain', 'rain'),
    ],
  },
  { id: 'calm', fields: [field('inversion', 'inversion')] },
  {
    id: 'tank',
    fields: [
      field('method', 'method'),
      field('totalMix', 'total-mix'),
      field('carrier', 'carrier-kind', 'carrier-amount'),
      field('recipe', 'recipe'),
      field('adjuvants', 'adjuvants'),
    ],
  },
  {
    id: 'after',
    fields: [
      field('leftoverFate', 'leftover-fate'),
      field('mixingPlace', 'mixing-place'),
      field('siteOrder', 'site-order'),
      field('droplets', 'droplets'),
      field('fertilizer', 'fertilizer'),
    ],
  },
  {
    id: 'people',
    fields: [
      field('applicator', 'applicator'),
      field('license', 'license'),
      field('supervisor', 'supervisor'),
      field('training', 'training'),
      field('helpers', 'helpers'),
    ],
  },
  {
    id: 'customer',
    fields: [
      field('customerName', 'customer-name'),
      field('customerAddress', 'customer-address'),
      field('company', 'company', 'company-address'),
    ],
  },
  {
    id: 'safety',
    fields: [
      field('ppe', 'ppe'),
      field('keepOff', 'keep-off'),
      field('keepOffUntil', 're-entry'),
      field('customerTold', 'customer-told'),
    ],
  },
  { id: 'notice', fields: [field('posting', 'posting'), field('notices', 'notices')] },
]

/** Where an element is asked for. @throws RangeError for one that no step asks, but for `written-by` */
export function stepAsking(element: ElementId): { readonly step: string; readonly field: string } {
  for (const { id, fields } of LOG_STEPS) {
    const found = fields.find(({ elements }) => elements.includes(element))
    if (found !== undefined) return { step: id, field: found.name }
  }
  throw new RangeError(`Cannot find a step that asks for ${element}`)
}
