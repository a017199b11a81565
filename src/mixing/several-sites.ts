import type { Choice, Outcome } from '#src/conversation/reply.ts'
import { stepOf } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer } from '#src/desk/command.ts'
import { compareOutcomes } from '#src/label/verdict.ts'
import { MixBody } from '#src/store/mixes.ts'
import type { MixOptions } from './options.ts'

/** One of the day's sites, as it was typed: `Plimmet Street House / Front lawn`. */
export interface Stop {
  readonly site: string
  readonly area?: string
}

/** Most sites of one tank that are checked at once. */
export const MOST_STOPS = 6

/** `A / Front lawn; B`: several sites stand behind each other. A single one is no list. */
export function readStops(site: string | undefined): readonly Stop[] {
  const parts = (site ?? '').split(';').map((one) => one.trim())
  if (parts.length < 2) return []
  return parts
    .filter((one) => one !== '')
    .map((one) => {
      const [name = '', area] = one.split(/\s+\/\s+/)
      return { site: name.trim(), ...(area === undefined ? {} : { area: area.trim() }) }
    })
}

export function writeStops(stops: readonly Stop[]): string {
  return stops.map(({ site, area }) => (area === undefined ? site : `${site} / ${area}`)).join('; ')
}

/**
 * One mix for the day's sites: each is asked as if it were the only one, and the strictest answer holds. What stands in
 * the way at one of them stands in the way of the mix.
 */
export async function mixForStops(
  given: MixOptions,
  stops: readonly Stop[],
  mixOne: (given: MixOptions) => Promise<Answer>,
): Promise<Answer> {
  const { site: _site, area: _area, ...shared } = given
  const answers: Answer[] = []
  for (const [at, stop] of stops.entries()) {
    const answer = await mixOne({ ...shared, ...stop })
    if (!isAmount(answer.reply.outcome)) return stoppedAt(answer, { given, stops, at })
    answers.push(answer)
  }
  return together(answers, stops)
}

const isAmount = (outcome: Outcome) => outcome === 'answer' || outcome === 'heads-up'

interface Where {
  readonly given: MixOptions
  readonly stops: readonly Stop[]
  readonly at: number
}

/** A question, hold or refusal, with the site that it is about; which area is answered for that site alone. */
function stoppedAt(answer: Answer, { given, stops, at }: Where): Answer {
  const stop = stops[at]
  const title = say('mixing.at-site', { site: stop?.site ?? '', what: answer.reply.title })
  const choices = answer.reply.choices.map((choice): Choice => {
    const step = stepOf(choice)
    const value = step?.value
    if (step === null || typeof value !== 'object' || value === null || Array.isArray(value)) return choice
    const { area, site, ...rest } = value
    if (typeof area !== 'string' && typeof site !== 'string') return choice
    const changed = stops.map((one, n) =>
      n === at
        ? {
            ...one,
            ...(typeof site === 'string' ? { site } : {}),
            ...(typeof area === 'string' ? { area } : {}),
          }
        : one,
    )
    return { ...choice, to: { ...step, value: { ...rest, site: writeStops(changed) } } }
  })
  return { ...answer, reply: { ...answer.reply, title, choices }, state: given }
}

/** The amounts are the same at every site; what to mind at each is told with its name. */
function together(answers: readonly Answer[], stops: readonly Stop[]): Answer {
  const [first, ...others] = answers
  if (first === undefined) throw new RangeError('Cannot mix for no site at all')
  const said = new Set(first.reply.lines.map((line) => JSON.stringify(line)))
  const more = others.flatMap(({ reply }, at): Text[] =>
    reply.lines
      .filter((line) => !said.has(JSON.stringify(line)))
      .map((what) => say('mixing.at-site', { site: stops[at + 1]?.site ?? '', what })),
  )
  const outcome = answers.reduce<Outcome>(
    (worst, { reply }) => (compareOutcomes(reply.outcome, worst) > 0 ? reply.outcome : worst),
    'answer',
  )
  return {
    ...first,
    reply: {
      ...first.reply,
      outcome,
      lines: [
        ...first.reply.lines,
        ...more,
        say('mixing.all-sites', { sites: { all: stops.map(({ site }) => site), join: 'and' } }),
      ],
      facts: first.reply.facts.map((fact) => ({ ...fact, value: leastOf(fact.name, fact.value, others) })),
    },
    state: withPlaces(first.state, answers),
  }
}

/** What is left of a year is what the least of the sites has left. */
function leastOf(name: string, value: string | number | boolean, others: readonly Answer[]) {
  if (!name.startsWith('left_this_year') || typeof value !== 'number') return value
  const same = others.flatMap(({ reply }) =>
    reply.facts.flatMap((fact) => (fact.name === name && typeof fact.value === 'number' ? [fact.value] : [])),
  )
  return Math.min(value, ...same)
}

/** The mix that a log draws from was made for all of them. */
function withPlaces(state: unknown, answers: readonly Answer[]): unknown {
  const bodies = answers.map((answer) =>
    MixBody.safeParse((answer.state as Record<string, unknown>)?.['@mix']),
  )
  const places = bodies.flatMap((one) => (one.success ? one.data.places : []))
  const [first] = bodies
  return first?.success ? { ...(state as object), '@mix': { ...first.data, places } } : state
}
