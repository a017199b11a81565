import type { PastTreatment } from '#src/label/situation.ts'
import { recorded } from './not-recorded.ts'
import type { RecordDraft } from './record.ts'

type SameGround = PastTreatment['sameGround']

/** What somebody answered to "same spots as last time?", for the treatment just before. */
function answerOf({ sameGround }: RecordDraft): SameGround {
  const answer = recorded(sameGround)
  if (answer === 'same spots') return true
  return answer === 'other spots' || answer === 'missed strip' ? false : 'unknown'
}

const isWhole = ({ coverage }: RecordDraft) => recorded(coverage) === 'whole area'

/**
 * Was each earlier treatment of an area on the very ground that is treated now? The answer is about the last one. What
 * went over the whole area was on all of it but a strip that it missed, and so was everything before when the whole
 * area is treated now. Further back only a chain of plain answers tells; whatever is not told counts as the same ground.
 * @param earlier the records of this area, the newest first
 */
export function groundsOf(draft: RecordDraft, earlier: readonly RecordDraft[]): readonly SameGround[] {
  if (isWhole(draft)) return earlier.map(() => true)
  let now: SameGround = true
  let asked = draft
  return earlier.map((record, back): SameGround => {
    const answer = answerOf(asked)
    now = now === true ? answer : 'unknown'
    asked = record
    const wasMissed = back === 0 && recorded(draft.sameGround) === 'missed strip'
    if (!isWhole(record) || wasMissed) return now
    now = true
    return true
  })
}
