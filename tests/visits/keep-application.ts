import { dayIn } from '#src/desk/clock.ts'
import { decimalText } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { sayRate } from '#src/quantity/said.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { ApplicationRecord } from '#src/record/record.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { keepRecord } from '../helpers/keep-record.ts'
import { product, units } from '../record/build.ts'

/** One application of an invented product as a finished log leaves it: a sealed record, its row, its treatments. */
export interface Applied {
  readonly site: string
  readonly area: string
  readonly on: string
  readonly product?: string
  /** Ounces per 1,000 ft². */
  readonly rate?: string
  readonly ft2?: string
  readonly person?: string
  readonly parts?: Partial<ApplicationRecord>
}

/** Keeps an application in the demo crew's store. @returns the number of its record */
export async function keepApplication(store: CrewStore, applied: Applied): Promise<number> {
  const { on, product: name = 'Tarnbrask 75 WDG', rate = '0.113', ft2 = '600' } = applied
  const atMs = Date.parse(`${on}T14:00:00Z`)
  const site = (await store.sites.list()).find((one) => one.name === applied.site)
  const area = (await store.sites.listAreas(site?.id ?? 0)).find((one) => one.name === applied.area)
  const person = (await store.people.list()).find(({ key }) => key === (applied.person ?? 'bex'))
  const entry = await store.labels.findByName(name)
  if (site === undefined || area === undefined || person === undefined) throw new Error('Nothing known')
  const parts: Partial<ApplicationRecord> = {
    siteId: site.id,
    areaId: area.id,
    date: on,
    treatedArea: units.square(ft2),
    products: [
      product({
        name,
        ...(entry?.live == null ? {} : { entryId: entry.id, revisionId: entry.live.id }),
        rate: units.per1000(rate),
        amount: units.ounces(decimalText(Number(rate) * (Number(ft2) / 1000))),
      }),
    ],
    targets: [{ words: 'yellow nutsedge', taxon: 'nutsedge-yellow' }],
    ...applied.parts,
  }
  const treatments: number[] = []
  for (const used of recorded(parts.products) ?? []) {
    const usedRate = recorded(used.rate)
    const size = recorded(parts.treatedArea)
    if (used.entryId === undefined || used.revisionId === undefined || usedRate === undefined) continue
    const { value, unit } = sayRate(usedRate)
    treatments.push(
      await store.treatments.add(
        {
          areaId: area.id,
          entryId: used.entryId,
          revisionId: used.revisionId,
          personId: person.id,
          treatedOn: on,
          details: {
            product: used.name,
            rate: `${value} ${unit}`,
            lineId: null,
            treatedFt2: size === undefined ? '0' : decimalText(amountIn(size, 'ft2')),
            amount: null,
            note: '',
          },
        },
        atMs,
      ),
    )
  }
  return keepRecord(store, { personId: person.id, record: parts, row: { treatments }, atMs })
}

export const dayOf = (atMs: number) => dayIn('America/New_York', atMs)
