import type { Day } from '#src/label/day.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { readingOf } from '#src/label/figures.ts'
import { activesLeft } from '#src/label/past.ts'
import type { PastTreatment } from '#src/label/situation.ts'
import { parseRate } from '#src/quantity/parse-rate.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { Treatment } from '#src/store/treatments.ts'

/** Two years: the longest that any yearly limit looks back is two calendar years' edge. */
const LOOK_BACK_YEARS = 2

/** From which plain day on the history of a ground counts for a limit on this day. */
export function historyFrom(day: Day): Day {
  return `${Number(day.slice(0, 4)) - LOOK_BACK_YEARS}${day.slice(4)}`
}

/** What was put on an area since a plain day, in the form that a label's limits are checked against. */
export async function historyOf(
  store: CrewStore,
  areaId: number,
  from: Day,
  sameGround: PastTreatment['sameGround'],
): Promise<PastTreatment[]> {
  return pastOf(store, await store.treatments.list(areaId, from), () => sameGround)
}

/** The same of treatments that were read already, each with its own word on the ground. */
export async function pastOf(
  store: CrewStore,
  treatments: readonly Treatment[],
  sameGround: (treatment: Treatment) => PastTreatment['sameGround'],
): Promise<PastTreatment[]> {
  const bodies = new Map<number, LabelEntry | undefined>()
  // Most of a year's treatments are of a few labels: each is read once.
  for (const id of new Set(treatments.map(({ revisionId }) => revisionId)))
    bodies.set(id, (await store.labels.getRevision(id))?.body)
  return treatments.map((treatment) =>
    pastTreatment(bodies.get(treatment.revisionId), treatment, sameGround(treatment)),
  )
}

function pastTreatment(
  body: LabelEntry | undefined,
  treatment: Treatment,
  sameGround: PastTreatment['sameGround'],
): PastTreatment {
  const rate = body === undefined ? undefined : parseRate(treatment.details.rate, readingOf(body.form))
  const product = rate?.ok && rate.value.kind === 'area' ? rate.value : undefined
  return {
    on: treatment.treatedOn,
    entry: treatment.details.product,
    ...(product === undefined ? {} : { product }),
    actives: body === undefined || product === undefined ? [] : activesLeft(body, product),
    areaFt2: treatment.details.treatedFt2,
    sameGround,
  }
}
