import type { LabelEntry } from '#src/label/entry.ts'
import { readingOf } from '#src/label/figures.ts'
import { activesLeft } from '#src/label/past.ts'
import type { PastTreatment } from '#src/label/situation.ts'
import { parseRate } from '#src/quantity/parse-rate.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { Treatment } from '#src/store/treatments.ts'

/** What was put on an area since a plain day, in the form that a label's limits are checked against. */
export async function historyOf(
  store: CrewStore,
  areaId: number,
  from: string,
  sameGround: PastTreatment['sameGround'],
): Promise<PastTreatment[]> {
  const treatments = await store.treatments.list(areaId, from)
  const bodies = new Map<number, LabelEntry | undefined>()
  // Most of a year's treatments are of a few labels: each is read once.
  for (const id of new Set(treatments.map(({ revisionId }) => revisionId)))
    bodies.set(id, (await store.labels.getRevision(id))?.body)
  return treatments.map((treatment) => pastTreatment(bodies.get(treatment.revisionId), treatment, sameGround))
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
