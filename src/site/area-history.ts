import { say, type Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { mayI } from '#src/label/allow.ts'
import { historyFrom, pastOf } from '#src/mixing/history.ts'
import { allowSettingsOf, turfsOf } from '#src/mixing/situation.ts'
import { sayRate } from '#src/quantity/said.ts'
import type { Area } from '#src/store/sites.ts'

/** The last treatment of an area, when the same product may come again, and what is left of its year. */
export async function areaHistory(area: Area, tools: Tools): Promise<Text[]> {
  const { store, today, crew } = tools
  const treatments = await store.treatments.list(area.id, historyFrom(today))
  const last = treatments.at(-1)
  if (last === undefined) return [say('site.card.untreated', { area: area.name })]
  const lines = [
    say('site.card.last', { area: area.name, product: last.details.product, day: { day: last.treatedOn } }),
  ]
  const entry = (await store.labels.get(last.entryId))?.live?.body
  if (entry === undefined) return lines
  const turfs = turfsOf(area, today)
  const verdict = mayI(
    entry,
    {
      turfs: turfs.length === 0 ? 'unknown' : turfs,
      ...(last.details.lineId === null ? {} : { line: last.details.lineId }),
      licensed: true,
      today,
      lastConfirmedOn: today,
      treatments: await pastOf(store, treatments, () => 'unknown'),
    },
    allowSettingsOf(crew),
  )
  const [left] = verdict.leftThisYear
  return [
    ...lines,
    nextLine(last.details.product, verdict.earliestNext, today),
    ...(left === undefined
      ? []
      : [say('site.card.left', { left: sayRate(left.left), product: last.details.product })]),
  ]
}

function nextLine(product: string, next: string | null, today: string): Text {
  if (next === null) return say('site.card.no-next', { product })
  return next <= today
    ? say('site.card.next-now', { product })
    : say('site.card.next', { product, day: { day: next } })
}
