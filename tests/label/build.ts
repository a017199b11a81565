import type { LabelEntry as Entry } from '#src/label/entry.ts'
import { LabelEntry } from '#src/label/entry.ts'
import { areaRatesOf, rateOf } from '#src/label/figures.ts'
import { activesLeft } from '#src/label/past.ts'
import type { RateLine } from '#src/label/rate-line.ts'
import type { PastTreatment, Situation } from '#src/label/situation.ts'
import type { Reason, Verdict } from '#src/label/verdict.ts'

/** An invented dry product with one rate line on tall fescue against yellow nutsedge, and no limit at all. */
export function entry(parts: Partial<Entry> = {}): Entry {
  return LabelEntry.parse({
    name: 'Invented 75 WDG',
    demo: true,
    form: 'dry',
    formulation: 'WDG',
    registration: { number: '9999999-1' },
    actives: [{ name: 'inventol', strength: '75 % ai', group: '90' }],
    restricted: false,
    signalWord: 'CAUTION',
    label: { version: 'A', date: '2024-11-04' },
    rateLines: [line()],
    limits: {},
    safety: { mixing: ['Gloves'], spraying: ['Gloves'] },
    ...parts,
  })
}

export function line(parts: Partial<RateLine> = {}): RateLine {
  return {
    id: 'sedges',
    line: 'Nutsedge in tall fescue: 0.4 to 0.5 oz per 1,000 sq ft.',
    page: '4',
    turfs: [{ words: 'tall fescue', taxa: ['tall-fescue'] }],
    weeds: [{ words: 'nutsedges', taxa: ['nutsedge-yellow', 'nutsedge-purple'] }],
    treatment: 'any',
    rates: [{ low: '0.4 oz wt/1000 ft2', high: '0.5 oz wt/1000 ft2' }],
    ...parts,
  }
}

/** A calm day on which nothing stands in the way of {@link entry}. */
export function situation(parts: Partial<Situation> = {}): Situation {
  return {
    turfs: ['tall-fescue'],
    weed: 'nutsedge-yellow',
    licensed: true,
    today: '2025-06-30',
    lastConfirmedOn: '2025-05-01',
    treatments: [],
    ...parts,
  }
}

/** A treatment with an entry, at a rate, on the ground in question. */
export function treatment(
  used: Entry,
  on: string,
  rate: string,
  parts: Partial<PastTreatment> = {},
): PastTreatment {
  const [product] = areaRatesOf(used, [rate])
  if (product === undefined) throw new RangeError(`Cannot build a treatment with ${rate}: it is not per area`)
  return {
    on,
    entry: used.name,
    product,
    actives: activesLeft(used, product),
    areaFt2: '5000',
    sameGround: true,
    ...parts,
  }
}

export const dry = (text: string) => rateOf({ form: 'dry' }, text)
export const wet = (text: string) => rateOf({ form: 'liquid' }, text)

/** Ids of the reasons that do more than tell. */
export function standing({ reasons }: Verdict): string[] {
  return reasons.filter(({ outcome }) => outcome !== 'answer').map(({ id, outcome }) => `${outcome} ${id}`)
}

export function reasonOf({ reasons }: Verdict, id: string): Reason | undefined {
  return reasons.find((one) => one.id === id)
}
