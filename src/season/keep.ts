import type { Reply } from '#src/conversation/reply.ts'
import { decimalText } from '#src/quantity/big.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { setupOf } from '#src/store/sprayers.ts'
import type { PlannedMix } from './plan.ts'

export type WithStore = <T>(job: (store: CrewStore) => Promise<T>) => Promise<T>

const DIGITS = 6
const plain = (value: unknown) => decimalText(Number(value).toPrecision(DIGITS))

/** Puts a mix on record as it was answered, on the ground that was meant, also where the request named none. */
export async function keepTreatment(planned: PlannedMix, answer: Reply, store: WithStore): Promise<void> {
  const fact = (name: string) => answer.facts.find((one) => one.name === name)
  const rate = fact('rate_on_ground') ?? fact('rate_applied')
  const covered = fact('area_covered')
  if (rate?.unit === undefined) return
  await store(async ({ labels, people, treatments }) => {
    const entry = await labels.findByName(planned.product)
    const person = await people.find(planned.who)
    if (entry?.live == null || person === undefined) throw new Error(`Cannot keep ${planned.product}`)
    const line = fact('rate_line')?.value
    const share = Math.min(Number(covered?.value ?? planned.area.squareFeet), Number(planned.area.squareFeet))
    await treatments.add(
      {
        areaId: planned.area.id,
        entryId: entry.id,
        revisionId: entry.live.id,
        personId: person.id,
        treatedOn: planned.day,
        details: {
          product: entry.name,
          rate: `${plain(rate.value)} ${rate.unit}`,
          lineId: typeof line === 'string' ? line : null,
          treatedFt2: plain(share),
          amount: null,
          note: '',
        },
      },
      0,
    )
  })
}

/** The same output as before, measured today. */
export async function measureAgain({ who, day, options }: PlannedMix, store: WithStore): Promise<void> {
  await store(async ({ people, sprayers }) => {
    const person = await people.find(who)
    const sprayer = (await sprayers.list()).find(({ name }) => name === options.sprayer)
    if (person === undefined || sprayer === undefined) return
    const known = await sprayers.findCalibration(sprayer, person.id)
    if (known === undefined) return
    await sprayers.keepCalibration(
      {
        sprayerId: sprayer.id,
        personId: person.id,
        setup: setupOf(sprayer.details),
        output: known.output,
        measuredOn: day,
      },
      0,
    )
  })
}
