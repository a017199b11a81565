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
  return Promise.all(treatments.map((treatment) => pastTreatment(store, treatment, sameGround)))
}

async function pastTreatment(
  store: CrewStore,
  treatment: Treatment,
  sameGround: PastTreatment['sameGround'],
): Promise<PastTreatment> {
  const body = (await store.labels.getRevision(treatment.revisionId))?.body
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
