import { say } from '#src/conversation/text.ts'
import { rateOf, rateParam } from '../figures.ts'
import type { Reason } from '../verdict.ts'
import { reason } from '../verdict.ts'
import type { Case } from './case.ts'

/** What the label says on a surfactant or other adjuvant in the tank. */
export function checkAdjuvant({ entry, situation }: Case): readonly Reason[] {
  const rule = entry.limits.adjuvant
  if (rule === undefined) {
    return situation.adjuvant === 'with' ? [reason('heads-up', 'adjuvant-silent')] : []
  }
  const parameters = {
    kind: rule.kind ?? say('label.any-adjuvant'),
    ...(rule.rate === undefined ? {} : { rate: rateParam(rateOf(entry, rule.rate)) }),
  }
  const withRate = rule.rate === undefined ? '' : '-rate'
  if (rule.rule === 'needed') {
    if (situation.adjuvant === 'without') return [reason('refusal', 'adjuvant-missing', parameters, rule)]
    return [
      reason(
        situation.adjuvant === 'with' ? 'answer' : 'heads-up',
        `adjuvant-needed${withRate}`,
        parameters,
        rule,
      ),
    ]
  }
  if (rule.rule === 'allowed') return [reason('answer', `adjuvant-allowed${withRate}`, parameters, rule)]
  if (situation.adjuvant === 'with') return [reason('refusal', 'adjuvant-forbidden', parameters, rule)]
  return [reason('answer', 'adjuvant-none', parameters, rule)]
}

const plain = (name: string) => name.trim().toLowerCase()

/** Partners in the tank: one that the label forbids or leaves out of its list is refused; where it is silent, held. */
export function checkPartners({ entry, situation: { partners = [] } }: Case): readonly Reason[] {
  const { tankMix } = entry.limits
  return partners.flatMap((partner): Reason[] => {
    const isNamed = (names: readonly string[] = []) => names.some((name) => plain(name) === plain(partner))
    if (isNamed(tankMix?.forbidden)) return [reason('refusal', 'partner-forbidden', { partner }, tankMix)]
    if (isNamed(tankMix?.allowed)) return []
    // A list of partners is all of them: a label that gives one allows no other.
    if (tankMix?.allowed !== undefined)
      return [reason('refusal', 'partner-not-allowed', { partner }, tankMix)]
    return [reason('hold', 'partner-not-named', { partner }, tankMix)]
  })
}

export function tellNonSelective({ entry }: Case): readonly Reason[] {
  return entry.nonSelective ? [reason('heads-up', 'non-selective')] : []
}

/** What the label adds on the tolerance of these turfs, and to the one line that is left. */
export function tellNotes({ entry, situation: { turfs }, lines }: Case): readonly Reason[] {
  const tolerance = (entry.toleranceNotes ?? []).filter(
    (note) =>
      note.turfs === undefined || turfs === 'unknown' || turfs.some((taxon) => note.turfs?.includes(taxon)),
  )
  const [line, ...others] = lines
  const own = line !== undefined && others.length === 0 ? (line.notes ?? []) : []
  return [
    ...tolerance.map(({ words }) => reason('answer', 'note', { words })),
    ...own.map((words) => reason('answer', 'note', { words })),
  ]
}
