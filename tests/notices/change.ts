import type { Tools } from '#src/desk/command.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { keepAmendment } from '#src/records/keep-link.ts'
import { type RecordRead, readSound } from '#src/records/read-record.ts'
import { english } from '#tests/record/build.ts'

/** Amends or voids a kept record, in its chain and in its row, and gives it as it stands then. */
export async function change(
  tools: Tools,
  number: number,
  wanted: { readonly changes?: Readonly<Record<string, unknown>>; readonly voids?: boolean },
): Promise<RecordRead> {
  const { store } = tools
  const made = await keepAmendment(await sound(store, number), { ...wanted, why: english('a slip') }, tools)
  if (!made.ok) throw new Error(JSON.stringify(made.error))
  const after = await sound(store, number)
  const names = (recorded(after.current.record.products) ?? []).map(({ name }) => name)
  const voidedAtMs = wanted.voids === true ? made.value.at.atMs : null
  await store.records.restate(after.row.id, { ...after.row, voidedAtMs }, names)
  return after
}

async function sound(store: Tools['store'], number: number): Promise<RecordRead> {
  const found = await readSound(store, number)
  if (found === undefined) throw new Error('No such record, or its links do not follow')
  return found
}
