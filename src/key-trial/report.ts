import { CANT_TELL, type RunCounts, type Tally } from './runs.ts'

/** One run as figures; shares between 0 and 1. */
export type RunFigures = {
  readonly errors: number
  readonly cant_tell: number
  readonly seed_heads: boolean
  readonly truth: 'plain' | 'disturbed'
  readonly walks: number
  readonly named_right: number
  readonly named: number
  readonly named_wrong: number
  readonly held: number
  readonly weed_as_own_turf: number
  readonly own_turf_walks: number
  readonly own_turf_as_weed: number
  readonly own_turf_recognized: number
  readonly questions: number
  readonly own_turf_questions: number
  /** Characters compared with a name that was given, a walk. */
  readonly compared: number
  readonly common_walks: number
  readonly common_held: number
  readonly left_out_walks: number
  readonly left_out_named: number
  /** Of all walks: named as another plant of the same genus. */
  readonly left_out_sister: number
  readonly left_out_as_own_turf: number
  readonly left_out_alone_walks: number
  readonly left_out_alone_named: number
}

export function figuresOf(counts: RunCounts): RunFigures {
  const { plan, weeds, commonWeeds, ownTurf, leftOut, leftOutAlone } = counts
  return {
    errors: plan.errors,
    cant_tell: CANT_TELL,
    seed_heads: plan.seedHeads,
    truth: plan.truth,
    walks: weeds.walks,
    named_right: round(weeds.right / Math.max(weeds.named, 1)),
    named: share(weeds, 'named'),
    named_wrong: round((weeds.named - weeds.right) / Math.max(weeds.walks, 1)),
    held: share(weeds, 'held'),
    weed_as_own_turf: share(weeds, 'ownTurf'),
    own_turf_walks: ownTurf.walks,
    own_turf_as_weed: share(ownTurf, 'named'),
    own_turf_recognized: share(ownTurf, 'ownTurf'),
    questions: round(weeds.questions / Math.max(weeds.walks, 1)),
    own_turf_questions: round(ownTurf.questions / Math.max(ownTurf.walks, 1)),
    compared: round(weeds.compared / Math.max(weeds.walks, 1)),
    common_walks: commonWeeds.walks,
    common_held: share(commonWeeds, 'held'),
    left_out_walks: leftOut.walks,
    left_out_named: share(leftOut, 'named'),
    left_out_sister: share(leftOut, 'sister'),
    left_out_as_own_turf: share(leftOut, 'ownTurf'),
    left_out_alone_walks: leftOutAlone.walks,
    left_out_alone_named: share(leftOutAlone, 'named'),
  }
}

/** A table for people, one line a run. */
export function tableOf(figures: readonly RunFigures[]): string {
  const heading = [
    'truth',
    'errors',
    'heads',
    'walks',
    'named %',
    'right %',
    'held %',
    'weed as own %',
    'own walks',
    'own as weed ‰',
    'own known %',
    'questions',
    'compared',
    'common held %',
    'left out named %',
    'of these same genus %',
    'alone %',
  ]
  const rows = figures.map((run) => [
    run.truth,
    percent(run.errors, 0),
    run.seed_heads ? 'yes' : 'no',
    String(run.walks),
    percent(run.named),
    percent(run.named_right),
    percent(run.held),
    percent(run.weed_as_own_turf, 2),
    String(run.own_turf_walks),
    (run.own_turf_as_weed * 1000).toFixed(2),
    percent(run.own_turf_recognized),
    run.questions.toFixed(1),
    run.compared.toFixed(1),
    percent(run.common_held),
    percent(run.left_out_named),
    percent(run.left_out_sister),
    percent(run.left_out_alone_named),
  ])
  return [heading, heading.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n')
}

/** The commonest mistakes over several runs. */
export function worstOf(counts: readonly RunCounts[], most: number): { text: string; times: number }[] {
  const all = new Map<string, number>()
  for (const { confused } of counts) {
    for (const [text, times] of confused) all.set(text, (all.get(text) ?? 0) + times)
  }
  return [...all]
    .map(([text, times]) => ({ text, times }))
    .sort((a, b) => b.times - a.times || a.text.localeCompare(b.text))
    .slice(0, most)
}

/** The plants held most often over several runs. */
export function heldMost(
  counts: readonly RunCounts[],
  most: number,
): { id: string; share: number; walks: number }[] {
  const all = new Map<string, { held: number; walks: number }>()
  for (const { heldBy } of counts) {
    for (const [id, one] of heldBy) {
      const sum = all.get(id) ?? { held: 0, walks: 0 }
      all.set(id, { held: sum.held + one.held, walks: sum.walks + one.walks })
    }
  }
  return [...all]
    .map(([id, one]) => ({ id, share: round(one.held / one.walks), walks: one.walks }))
    .sort((a, b) => b.share - a.share || a.id.localeCompare(b.id))
    .slice(0, most)
}

function share(tally: Tally, what: 'named' | 'held' | 'ownTurf' | 'sister'): number {
  return round(tally[what] / Math.max(tally.walks, 1))
}

function round(value: number): number {
  return Math.round(value * 1e5) / 1e5
}

function percent(value: number, digits = 1): string {
  return (value * 100).toFixed(digits)
}
