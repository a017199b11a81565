import { strictest } from '#src/calculator/worked.ts'
import { askFor } from '#src/conversation/ask-for.ts'
import { field } from '#src/conversation/fields.ts'
import { reply } from '#src/conversation/reply.ts'
import { sayStep } from '#src/conversation/steps.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'
import { sayOutput } from '#src/quantity/said.ts'
import { type Sprayer, setupOf } from '#src/store/sprayers.ts'
import { type Found, methods } from './methods.ts'
import { type CalibrateOptions, Method } from './options.ts'
import { readFigures } from './read.ts'

/** Works a method out; asks for what is missing, and for the method where nobody has named one. */
export async function calibrate(given: CalibrateOptions, tools: Tools): Promise<Answer> {
  if (given.method === undefined) return askMethod(given)
  const { figures, read } = readFigures(given, tools.locale)
  if (read.problems.length > 0)
    return {
      reply: reply('refusal', say('outputs.cannot'), { lines: [...read.problems], audience: 'person' }),
    }
  const tried = methods[given.method](figures, given)
  if (tried.kind === 'asks') return askFigures(given, tried.missing)
  const { result } = tried
  if (!result.ok) {
    const [first, ...rest] = result.problems
    const outcome =
      first?.outcome === 'question' ? 'question' : first?.outcome === 'hold' ? 'hold' : 'refusal'
    return {
      reply: reply(outcome, first === undefined ? say('outputs.cannot') : sayStep(first), {
        lines: rest.map(sayStep),
        audience: 'person',
      }),
    }
  }
  const { value, findings, working } = result
  const outcome = strictest(findings)
  return {
    reply: reply(outcome, outcome === 'hold' ? say('outputs.hold', { result: value.title }) : value.title, {
      lines: [...value.lines, ...findings.map(sayStep)],
      facts: [...value.facts],
      working: working.map(sayStep),
      choices: canKeep(value, outcome)
        ? [{ label: say('outputs.keep'), to: { step: 'keep' }, look: 'main' as const }]
        : [],
      safety: { about: ['spraying'] },
    }),
    state: { given, output: value.output === null ? null : sayOutput(value.output) },
  }
}

function canKeep({ output }: Found, outcome: string): boolean {
  return output !== null && (outcome === 'answer' || outcome === 'heads-up')
}

/** For somebody who has never done it: one way that needs a tape, a watch and water. */
function askMethod(given: CalibrateOptions): Answer {
  const asked = askFor(
    given,
    say('outputs.how'),
    Method.options.map((method) => ({ label: say(`outputs.method-${method}`), set: { method } })),
    { lines: [say('outputs.guide')], audience: 'person', safety: { about: ['spraying'] } },
  )
  return { ...asked, state: { given, output: null } }
}

const MOST_FIELDS = 5

function askFigures(given: CalibrateOptions, missing: readonly (keyof CalibrateOptions)[]): Answer {
  const empty = missing.filter((option) => given[option] === undefined)
  return {
    reply: reply(
      'question',
      say('outputs.needs', { method: say(`outputs.method-${given.method ?? 'hand'}`) }),
      {
        lines: [say(`outputs.guide-${given.method ?? 'hand'}`)],
        audience: 'person',
        form: {
          title: say('outputs.form.title'),
          open: say('common.fill-in'),
          fields: empty.slice(0, MOST_FIELDS).map((option) => field('outputs.form', option, { hint: true })),
          to: { step: 'figures' },
        },
        safety: { about: ['spraying'] },
      },
    ),
    state: { given, output: null },
  }
}

/** Keeps an output for a sprayer in somebody's hands; `/mix` uses it at once. */
export async function keep(
  given: CalibrateOptions,
  output: { value: string; unit: string },
  tools: Tools,
): Promise<Answer> {
  const { store } = tools
  const all = await store.sprayers.list()
  const state = { given, output }
  if (given.sprayer === undefined) {
    const asked = askFor(
      given,
      say('outputs.which-sprayer'),
      all
        .slice(0, 25)
        .map(({ name }) => ({ label: say('words.as-typed', { words: name }), set: { sprayer: name } })),
      { audience: 'person' },
    )
    return { ...asked, state }
  }
  const sprayer = pick(given, 'sprayer', given.sprayer, all)
  if (!sprayer.ok) return { ...sprayer.ask, state }
  const person = given.for === undefined ? null : pick(given, 'for', given.for, await store.people.list())
  if (person !== null && !person.ok) return { ...person.ask, state }
  const who = person?.value ?? tools.person
  await store.sprayers.keepCalibration(
    {
      sprayerId: sprayer.value.id,
      personId: who.id,
      setup: setupOf(sprayer.value.details),
      output,
      measuredOn: tools.today,
      details: { method: given.method ?? 'hand' },
    },
    tools.nowMs,
  )
  return { reply: await keptReply(sprayer.value, who, output, tools) }
}

async function keptReply(
  sprayer: Sprayer,
  who: { id: number; name: string },
  output: { value: string; unit: string },
  { store }: Tools,
) {
  const trend = (await store.sprayers.listCalibrations(sprayer.id, who.id)).filter(
    (one) => one.setup === setupOf(sprayer.details) && one.output.unit === output.unit,
  )
  return reply('answer', say('outputs.kept', { output, sprayer: sprayer.name, person: who.name }), {
    lines: [say('outputs.kept-until')],
    facts: [{ name: 'output', value: Number(output.value), unit: output.unit }],
    files:
      trend.length < 2
        ? []
        : [
            {
              name: 'outputs.png',
              alt: say('outputs.trend', { sprayer: sprayer.name, person: who.name }),
              from: {
                picture: 'trend',
                data: {
                  title: `${sprayer.name}: ${who.name}`,
                  unit: output.unit,
                  series: [
                    { points: trend.map((one) => ({ day: one.measuredOn, value: one.output.value })) },
                  ],
                },
              },
            },
          ],
    safety: { about: ['spraying'] },
  })
}
