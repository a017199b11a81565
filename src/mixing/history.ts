import { asActive } from '#src/label/amounts.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { readingOf, strengthOf } from '#src/label/figures.ts'
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
    actives: body === undefined ? [] : activesOf(body, product),
    areaFt2: treatment.details.treatedFt2,
    sameGround,
  }
}

type AreaRate = NonNullable<PastTreatment['product']>

/** Each active as ai and, where the label gives it, as ae: limits are worded in either. */
function activesOf(body: LabelEntry, product: AreaRate | undefined): PastTreatment['actives'] {
  return body.actives.map(({ name, group, strength, acid }) => ({
    name,
    ...(group === undefined ? {} : { group }),
    amounts: [strength, ...(acid === undefined ? [] : [acid])].flatMap((text) => {
      const active = product === undefined ? null : asActive(product, strengthOf(text))
      return active === null ? [] : [active]
    }),
  }))
}
