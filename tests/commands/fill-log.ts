import type { Said, Typing } from './open-room.ts'

/** What a careful person types into each field of the log, by the field's name. */
export const careful: Readonly<Record<string, string>> = {
  started_at: '7:30',
  ended_at: '8:10',
  mix_drawn: '1/2 gal',
  treated_area: '500 ft2',
  area_basis: 'measured',
  product: 'Tarnbrask 75 WDG',
  registration: '',
  amount: '3.2 g',
  rate: '0.113 oz wt/1000 ft2',
  targets: 'yellow nutsedge',
  place: '12 Plimmet Street, Fallowquay, NC 00012',
  place_words: 'strip along the north fence',
  site: 'lawn; tall fescue',
  county: 'Demo County',
  wind_speed: '5 mph',
  wind_from: 'NW',
  temperature: '72 F',
  humidity_percent: '60',
  rain: '48 / 12',
  inversion: 'none',
  method: 'hand sprayer',
  total_mix: '1 gal',
  carrier: '1 gal water',
  recipe: '6.4 g in 2 gal',
  adjuvants: 'none',
  leftover_fate: 'kept in the tank',
  mixing_place: 'shop',
  site_order: '1 of 1',
  droplets: 'coarse',
  fertilizer: 'no',
  applicator: 'Bex Demo',
  license: 'NC-DEMO-1, 2027-12-31',
  supervisor: 'Odalys Demo, NC-DEMO-2, 2027-12-31',
  training: '2026-03-01, Odalys Demo, handling course',
  helpers: 'none',
  customer_name: 'Demo Customer',
  customer_address: '12 Plimmet Street, Fallowquay, NC 00012',
  company: 'Demo Sward; 1 Demo Lane, Fallowquay, NC 00012',
  ppe: 'yes',
  keep_off: 'Keep off until dry',
  keep_off_until: 'dry',
  customer_told: 'yes',
  posting: 'yes',
  notices: 'customer, neighbor, registry',
}

const MOST_FORMS = 15

/** Fills in every short form until none is shown; `own` stands before what a careful person types. */
export async function fillForms(
  typing: Typing,
  first: Said,
  own: Readonly<Record<string, string>> = {},
): Promise<Said> {
  let said = first
  for (let at = 0; at < MOST_FORMS && said.fields.length > 0; at++) {
    const values = said.fields.map((name) => `${name}:"${own[name] ?? careful[name] ?? ''}"`)
    said = await typing(`= ${values.join(' ')}`)
  }
  return said
}

/** Presses the choice whose label begins so. */
export async function press(typing: Typing, from: Said, label: string): Promise<Said> {
  const at = from.choices.findIndex((one) => one.startsWith(label))
  if (at < 0) throw new Error(`No choice "${label}" among ${from.choices.join(' | ')}`)
  return typing(`> ${at + 1}`)
}
