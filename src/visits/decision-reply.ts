import type { Choice, Fact, Reply } from '#src/conversation/reply.ts'
import { reply } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { type Decision, decideSecond } from '#src/efficacy/decision.ts'
import type { Judged } from '#src/efficacy/judge.ts'
import { bandOf } from '#src/efficacy/scale.ts'
import { inPercent } from '#src/efficacy/shown.ts'
import { compareOutcomes, type Reason } from '#src/label/verdict.ts'
import { saySource } from '#src/label/words.ts'
import { figure } from '#src/mixing/mix-facts.ts'
import { sayRate } from '#src/quantity/said.ts'
import { type Look, nextLookOf } from '#src/recheck/plan.ts'
import { sayBand, sayInjury, sayMethod, sayNote, sayWhy } from '#src/recheck/words.ts'
import { recordName } from '#src/record/number.ts'
import { chartOf } from './chart.ts'
import { decideSettingsOf } from './crew-days.ts'
import { judgeAll } from './judged.ts'
import { leavesLines } from './label-leaves.ts'
import { type LabelSays, labelSays } from './label-says.ts'
import { leftOfYear } from './left-of-year.ts'
import { dueFact, history, move } from './look-card.ts'
import { mixAgain } from './mix-again.ts'
import type { OpenVisits } from './open-visit.ts'

/** What is decided on an application's plots today, with everything that it rests on. */
export interface Decided {
  readonly decision: Decision
  readonly judged: readonly Judged[]
  readonly label: LabelSays
}

export async function decideOn({ visits, application, plots }: OpenVisits, tools: Tools): Promise<Decided> {
  const ratings = await tools.store.ratings.list(visits.id)
  const judged = judgeAll(ratings, plots, application.treatedOn)
  const label = await labelSays(application, tools)
  const decision = decideSecond({
    today: tools.today,
    judged,
    schedule: { judgeFrom: visits.plan.judgeFrom, nextLook: nextLookOf(visits.plan)?.visitOn ?? null },
    label,
    identityDoubtful: application.weeds.length === 0,
    settings: decideSettingsOf(tools.crew),
  })
  return { decision, judged, label }
}

/**
 * What was seen, the figure first, and whether a second application is called for, with one press to its mix.
 * @param answered the look that the visit answered; null when none was due
 */
export async function answerDecision(open: OpenVisits, answered: Look | null, tools: Tools): Promise<Answer> {
  const { visits, application } = open
  const decided = await decideOn(open, tools)
  const { decision, judged } = decided
  const newest = judged.at(-1)
  const coming = nextLookOf(visits.plan)
  const left = decision.kind === 'refusal' ? await leftOfYear(application, decided.label, tools) : null
  const chart = await chartOf(open, judged, tools)
  return {
    reply: reply(outcomeOf(decided), titleOf(decided), {
      lines: [
        ...(newest === undefined ? [] : seenLines(newest)),
        ...(decision.kind === 'allowed' ? leavesLines(decided.label) : []),
        ...decision.reasons.filter((one) => decides(one, decision)).flatMap(sayFully),
        ...(left === null ? [] : [left.line]),
        ...(answered === null && coming !== null ? [say('visits.kept-extra')] : []),
        ...(coming === null ? [] : [comingLine(coming, tools.today)]),
      ],
      facts: [
        { name: 'record', value: recordName(application.row.number) },
        { name: 'decision', value: decision.kind },
        ...factsOf(decided),
        ...(decision.kind === 'allowed' ? leftFacts(decision) : []),
        ...(coming === null ? [] : [dueFact(coming)]),
      ],
      choices: [
        ...(decision.kind === 'allowed' ? mixAgain(application) : (left?.choices ?? [])),
        ...(coming?.again === tools.today ? [move(visits.id)] : []),
        history(visits.id),
        { label: say('visits.list'), to: { step: 'list' }, repeat: true } satisfies Choice,
      ],
      files: chart === null ? [] : [chart],
      safety: { about: decision.kind === 'allowed' ? ['recheck', 'spraying'] : ['recheck'] },
    }),
  }
}

function leftFacts({ leftThisYear }: Extract<Decision, { kind: 'allowed' }>): Fact[] {
  return leftThisYear.slice(0, 1).map(({ left }) => ({ name: 'left_this_year', ...figure(sayRate(left)) }))
}

function comingLine({ again, visitOn }: Look, today: string): Text {
  return say(again === today ? 'visits.look-again-on' : 'visits.next-look', { day: { day: visitOn } })
}

/** A visit that cannot be judged deserves a second look, even where the decision is only to wait. */
function outcomeOf({ decision, judged }: Decided): Reply['outcome'] {
  return decision.outcome === 'answer' && judged.at(-1)?.control === null ? 'heads-up' : decision.outcome
}

function titleOf({ decision, judged }: Decided): Text {
  const newest = judged.at(-1)
  if (newest?.control === null) return say('visits.title-blind')
  const mean = newest?.control == null ? null : inPercent(newest.control.mean)
  const day = decision.kind === 'wait' ? decision.until : decision.kind === 'allowed' ? decision.from : null
  return say(mean === null ? `visits.title-${decision.kind}-unrated` : `visits.title-${decision.kind}`, {
    ...(mean === null ? {} : { mean }),
    ...(day === null ? {} : { day: { day } }),
  })
}

/** How the figure came about, plot by plot where there are several, and what has to be said with it. */
function seenLines({ control, plots, injury, notes }: Judged): Text[] {
  const [first] = plots
  return [
    ...(control === null || first === undefined
      ? []
      : [say('visits.band', { band: sayBand(bandOf(control.mean)), how: sayMethod(first.method) })]),
    ...(plots.length < 2
      ? []
      : plots.map(({ plot, percent }) =>
          say('visits.plot-percent', { flag: plot, percent: inPercent(percent) }),
        )),
    ...(injury < 9 ? [say('visits.lawn', { injury: sayInjury(injury) })] : []),
    ...notes.map(sayNote),
  ]
}

/** Temperatures decide on the day, so they stand beside it. */
const OF_THE_DAY = ['label.mind-hot', 'label.mind-cold']

/**
 * The label's other usual cautions belong to the mix; what stands in the way hides what is only to be minded.
 */
function decides({ id, outcome }: Reason, { kind }: Decision): boolean {
  if (id.startsWith('recheck.')) return true
  if (kind === 'allowed' && OF_THE_DAY.includes(id)) return true
  return compareOutcomes(outcome, kind === 'allowed' ? 'answer' : 'heads-up') > 0
}

function sayFully(reason: Reason): Text[] {
  const source = saySource(reason)
  return [sayWhy(reason), ...(source === null ? [] : [source])]
}

function factsOf({ decision, judged }: Decided): Fact[] {
  const newest = judged.at(-1)
  const next = decision.kind === 'allowed' ? decision.from : decision.labelOpensOn
  return [
    ...(newest?.control == null
      ? []
      : [
          {
            name: 'percent_control',
            value: factValue(newest.control.mean),
            unit: '%',
            text: say('visits.percent', { percent: inPercent(newest.control.mean) }),
          },
        ]),
    ...(newest === undefined
      ? []
      : [{ name: 'injury', value: newest.injury, text: sayInjury(newest.injury) }]),
    ...(next === null
      ? []
      : [{ name: 'next_treatment', value: next, text: say('visits.day', { day: { day: next } }) }]),
  ]
}
