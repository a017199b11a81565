import type { Outcome } from '#src/conversation/reply.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import type { Tally } from './tally.ts'

export interface SeasonReport {
  readonly seed: number
  readonly weeks: number
  readonly mixes: number
  readonly days: number
  /** The last word on each mix. */
  readonly outcomes: readonly { readonly outcome: Outcome; readonly mixes: number; readonly share: number }[]
  /** What came up on the way, the most frequent first. */
  readonly reasons: readonly ReasonRow[]
}

export interface ReasonRow {
  readonly outcome: Outcome
  readonly id: string
  readonly mixes: number
  /** Of all mixes. */
  readonly share: number
  /** Of all working days: what comes up every day is not read any more. */
  readonly days: number
}

const OUTCOMES: readonly Outcome[] = ['answer', 'heads-up', 'question', 'hold', 'refusal']
const share = (part: number, whole: number) => (whole === 0 ? 0 : Math.round((part / whole) * 1000) / 1000)

export function reportOf(
  tally: Tally,
  about: { readonly seed: number; readonly weeks: number },
): SeasonReport {
  const days = tally.days.size
  return {
    ...about,
    mixes: tally.mixes,
    days,
    outcomes: OUTCOMES.map((outcome) => {
      const mixes = tally.last.get(outcome) ?? 0
      return { outcome, mixes, share: share(mixes, tally.mixes) }
    }),
    reasons: [...tally.reasons.values()]
      .map((one) => ({
        outcome: one.outcome,
        id: one.id,
        mixes: one.mixes,
        share: share(one.mixes, tally.mixes),
        days: share(one.days.size, days),
      }))
      .sort((a, b) => b.mixes - a.mixes || (a.id < b.id ? -1 : 1)),
  }
}

/** On more of the mixes, or on more of the days, than this a heads-up or hold is noise. Common practice, no source. */
const NOISY = { mixes: 0.5, days: 0.8 } as const

/** Heads-ups and holds that come up so often that they are not read any more. */
export function noiseOf({ reasons }: SeasonReport): readonly ReasonRow[] {
  return reasons.filter(
    (one) =>
      (one.outcome === 'heads-up' || one.outcome === 'hold') &&
      (one.share > NOISY.mixes || one.days > NOISY.days),
  )
}

const percent = (part: number) => `${(part * 100).toFixed(1)} %`

/** The report as Markdown. */
export function writeReport(report: SeasonReport, words: Catalogue): string {
  const noisy = noiseOf(report)
  return [
    '# A season of the demo crew',
    '',
    `${report.mixes} mixes on ${report.days} working days, ${report.weeks} weeks, seed ${report.seed}. Crew, places and products are invented; so are their habits (\`src/season/habits.ts\`). Made by \`npm run season -- --write\`.`,
    '',
    'Holds and heads-ups of every day are not read any more. This shows how often each comes up.',
    '',
    '## The last word on each mix',
    '',
    '| outcome | mixes | share |',
    '| --- | ---: | ---: |',
    ...report.outcomes.map((one) => `| ${one.outcome} | ${one.mixes} | ${percent(one.share)} |`),
    '',
    '## What came up on the way',
    '',
    'A line of an `answer` is only told; it raises nothing. `days` is the share of working days on which it came up.',
    '',
    '| outcome | words | mixes | share | days |',
    '| --- | --- | ---: | ---: | ---: |',
    ...report.reasons.map(
      (one) =>
        `| ${one.outcome} | ${cell(words.source('en', one.id) ?? one.id)} | ${one.mixes} | ${percent(one.share)} | ${percent(one.days)} |`,
    ),
    '',
    noisy.length === 0
      ? 'No heads-up and no hold comes up on more than half of the mixes or on four days of five.'
      : `Too often to be read: ${noisy.map(({ id }) => `\`${id}\``).join(', ')}.`,
    '',
  ].join('\n')
}

const LONGEST_CELL = 90

/** A sentence with the name alone of each plural or selection, and without what would break a table. */
function cell(words: string): string {
  const plain = withoutChoices(words).replace(/[|\n]/g, ' ')
  return plain.length <= LONGEST_CELL ? plain : `${plain.slice(0, LONGEST_CELL - 1).trimEnd()}…`
}

/** `{days, plural, one {# day} other {# days}}` is `{days}`. */
function withoutChoices(words: string): string {
  let [depth, kept, skips] = [0, '', false]
  for (const letter of words) {
    if (letter === '}') depth--
    if (depth <= 0) skips = false
    if (letter === ',' && depth === 1) skips = true
    if (!skips) kept += letter
    if (letter === '{') depth++
  }
  return kept
}
