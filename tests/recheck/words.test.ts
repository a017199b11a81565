import { describe, expect, test } from 'vitest'
import type { Text } from '#src/conversation/text.ts'
import type { DecisionInput } from '#src/efficacy/decision.ts'
import { decideSecond } from '#src/efficacy/decision.ts'
import type { ControlMethod, JudgeNote } from '#src/efficacy/judge.ts'
import type { ControlBand } from '#src/efficacy/scale.ts'
import { controlSteps } from '#src/efficacy/scale.ts'
import { mayI } from '#src/label/allow.ts'
import { LookFor, Purpose } from '#src/recheck/table.ts'
import {
  sayBand,
  sayInjury,
  sayLookFor,
  sayLookProblem,
  sayMethod,
  sayNote,
  sayPurpose,
  sayRatingProblem,
  sayState,
  sayStep,
  sayWhy,
} from '#src/recheck/words.ts'
import { loadWords } from '#src/words/load.ts'
import { speak } from '#src/words/speak.ts'
import { nutsedgeLabel, visits } from '../efficacy/build.ts'
import { situation } from '../label/build.ts'

const words = loadWords()

function spoken(text: Text): string {
  const missing: string[] = []
  const said = speak(words, text, {
    locale: 'en',
    escape: (typed) => typed,
    onMissing: ({ id, parameters }) => missing.push([id, ...parameters].join(' ')),
  })
  expect(missing).toEqual([])
  return said
}

describe('every step, look and note has its words', () => {
  const bands: ControlBand[] = ['excellent', 'good', 'suppression', 'poor', 'worse']
  const methods: ControlMethod[] = ['henderson-tilton', 'abbott', 'abbott-cover', 'reduction', 'as-seen']
  const notes: JudgeNote[] = [
    'one-plot',
    'no-untreated',
    'worse-than-untreated',
    'untreated-brown',
    'untreated-bare',
    'mixed-methods',
    'rained',
    'mown',
  ]
  const texts: Text[] = [
    ...LookFor.options.map(sayLookFor),
    ...Purpose.options.map(sayPurpose),
    ...(['coming', 'due', 'overdue'] as const).map(sayState),
    ...controlSteps.map(sayStep),
    ...[1, 2, 3, 4, 5, 6, 7, 8, 9].map(sayInjury),
    ...bands.map(sayBand),
    ...methods.map(sayMethod),
    ...notes.map(sayNote),
  ]
  test.each(texts.map((text) => [text.say, text] as const))('%s', (_, text) => {
    expect(spoken(text).length).toBeGreaterThan(2)
  })
})

describe('why a look or a rating does not fit', () => {
  test.each([
    [
      sayLookProblem({ kind: 'day-off', next: '2026-05-25' }),
      'That is a day off. The next workday is Mon, May 25, 2026.',
    ],
    [sayLookProblem({ kind: 'day-off', next: null }), 'That is a day off, and no workday follows.'],
    [
      sayLookProblem({ kind: 'before-interval', notBefore: '2026-06-15' }),
      'From Mon, Jun 15, 2026. The label’s interval is not over before.',
    ],
    [
      sayLookProblem({ kind: 'before-earlier-look', earliest: '2026-05-25' }),
      'From Mon, May 25, 2026. The look before it comes first.',
    ],
    [sayLookProblem({ kind: 'unknown-look', look: 'tenth' }), 'There is no look “tenth” here.'],
    [
      sayLookProblem({ kind: 'before-treatment', treatedOn: '2026-05-04' }),
      'No look before the application on Mon, May 4, 2026.',
    ],
    [
      sayLookProblem({ kind: 'closed', status: { kind: 'looked', on: '2026-05-20', by: 'bex' } }),
      'This look is closed.',
    ],
    [sayLookProblem({ kind: 'reason-needed' }), 'Say in a few words why it is skipped.'],
    [sayRatingProblem({ kind: 'plot-twice', plot: '3' }), 'Plot 3 is rated twice.'],
    [sayRatingProblem({ kind: 'plot-unknown', plot: '9' }), 'There is no plot 9 here.'],
    [
      sayRatingProblem({ kind: 'in-the-future', today: '2026-06-02' }),
      'Today is Tue, Jun 2, 2026. Rate what has been seen.',
    ],
    [
      sayRatingProblem({ kind: 'before-treatment', treatedOn: '2026-05-04' }),
      'The application was on Mon, May 4, 2026. Rate a day after it.',
    ],
  ])('%o: %s', (text, sentence) => {
    expect(spoken(text)).toBe(sentence)
  })
})

describe('why a decision is what it is', () => {
  const today = '2026-06-15'
  const label = {
    on: today,
    verdict: mayI(nutsedgeLabel, situation({ today, lastConfirmedOn: '2026-04-01' })),
  }
  const base: DecisionInput = {
    today,
    judged: [],
    schedule: { judgeFrom: '2026-06-01', nextLook: '2026-06-22' },
    label,
    identityDoubtful: false,
  }
  const saidOf = (parts: Partial<DecisionInput>) =>
    decideSecond({ ...base, ...parts }).reasons.map((reason) => spoken(sayWhy(reason)))

  test.each<[string, Partial<DecisionInput>, string]>([
    ['nothing seen', {}, 'Nobody has rated it yet.'],
    [
      'too early',
      { judged: visits(['2026-05-18', 20]) },
      '20 % now, but this weed can be judged only from Mon, Jun 1, 2026.',
    ],
    ['moving', { judged: visits(['2026-06-01', 40], [today, 60]) }, 'Still working: 40 % before, 60 % now.'],
    ['done', { judged: visits([today, 95]) }, '95 % control on Mon, Jun 15, 2026, and nothing grows back.'],
    [
      'not enough',
      { judged: visits(['2026-06-01', 40], [today, 41]) },
      '41 % control on Mon, Jun 15, 2026. The crew wants 90 %.',
    ],
    [
      'steady',
      { judged: visits(['2026-06-01', 40], [today, 41]) },
      'It no longer moves: 1 point since the visit before.',
    ],
    [
      'dropped',
      { judged: visits(['2026-06-01', 80], [today, 40]) },
      'Control fell from 80 % to 40 %, and nobody saw anything grow back.',
    ],
    [
      'hurt',
      { judged: visits(['2026-06-01', 40], [today, 41, { injury: 4 }]) },
      'The lawn is hurt: step 4. The crew’s limit is step 6.',
    ],
    [
      'disagreeing',
      { judged: visits([today, 20], [today, 70]) },
      'Two people rated it 20 % and 70 % on Mon, Jun 15, 2026. Look together.',
    ],
  ])('%s', (_, parts, sentence) => {
    expect(saidOf(parts)).toContain(sentence)
  })
})
