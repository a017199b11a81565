import { dayIn } from '#src/desk/clock.ts'
import type { Tools } from '#src/desk/command.ts'
import { historyFrom } from '#src/mixing/history.ts'
import type { Spots } from '#src/mixing/options.ts'
import type { RecordDraft } from '#src/record/record.ts'
import type { KeptMix } from '#src/store/mixes.ts'

/** Which ground somebody means, as a record says it. */
export const GROUND: Readonly<Record<Spots, Extract<RecordDraft['sameGround'], string>>> = {
  same: 'same spots',
  other: 'other spots',
  'missed strip': 'missed strip',
}

/** Which ground was meant when it was mixed, if nothing was put on this area since: nobody is asked twice. */
export async function withMixedGround(
  draft: RecordDraft,
  mix: KeptMix | null,
  { store, crew }: Pick<Tools, 'store' | 'crew'>,
): Promise<RecordDraft> {
  const { coverage, areaId, sameGround } = draft
  if (sameGround !== undefined || (coverage !== 'spots' && coverage !== 'strip')) return draft
  const { places = [], spots } = mix?.body ?? {}
  const [place, ...more] = places
  if (mix === null || spots === undefined || place === undefined || more.length > 0) return draft
  if (typeof areaId !== 'number' || place.areaId !== areaId) return draft
  const mixedOn = dayIn(crew.zone, mix.createdAtMs)
  const last = (await store.treatments.list(areaId, historyFrom(mixedOn))).at(-1)
  return last !== undefined && last.treatedOn < mixedOn ? { ...draft, sameGround: GROUND[spots] } : draft
}
