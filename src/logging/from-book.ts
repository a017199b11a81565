import { strengthOf } from '#src/label/figures.ts'
import { notRecorded } from '#src/record/not-recorded.ts'
import type { ProductUsed } from '#src/record/product.ts'
import type { Revision } from '#src/store/labels.ts'

/** A product as the label book knows it, in the revision that was used; rate and amount are said by the job. */
export function productOf(
  { id, entryId, body }: Revision,
  line: string | null,
): Omit<ProductUsed, 'rate' | 'amount'> {
  const { number, exempt25b, stateNumber, specialLocalNeed } = body.registration
  return {
    name: body.name,
    entryId,
    revisionId: id,
    ...(line === null ? {} : { line }),
    form: body.form,
    ...(number === undefined
      ? exempt25b === true
        ? {}
        : { registration: notRecorded }
      : { registration: number }),
    ...(exempt25b === undefined ? {} : { exempt25b }),
    ...(stateNumber === undefined ? {} : { stateNumber }),
    ...(specialLocalNeed === undefined ? {} : { specialLocalNeed }),
    restricted: body.restricted,
    label: { version: body.label.version, date: body.label.date },
    actives: body.actives.map(({ name, strength }) => {
      const read = strengthOf(strength)
      return { name, strength, ...(read.kind === 'percent' ? { percent: read.value } : {}) }
    }),
  }
}

/** What somebody types of a product that the book does not hold. */
export function unknownProduct(name: string): ProductUsed {
  return { name }
}
