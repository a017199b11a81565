import { type Finding, strictest } from '#src/calculator/worked.ts'
import { askFigures } from '#src/conversation/ask-figures.ts'
import { askFor } from '#src/conversation/ask-for.ts'
import { unitSystemOf } from '#src/conversation/own-units.ts'
import { reply } from '#src/conversation/reply.ts'
import { sayStep } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import type { Found } from './found.ts'
import { methodMeant, methods } from './methods.ts'
import { type CalibrateOptions, Method } from './options.ts'
import { readFigures } from './read.ts'

export const FORM = { form: 'outputs.form' } as const

export type Calibrated =
  | { readonly ok: true; readonly found: Found; readonly answer: Answer; readonly isGood: boolean }
  | { readonly ok: false; readonly answer: Answer }

/** Works a method out; asks for what is missing, and for the method where the figures do not tell it. */
export function calibrate(typed: CalibrateOptions, tools: Tools): Calibrated {
  const method = methodMeant(typed)
  if (method === undefined) return { ok: false, answer: askMethod(typed) }
  const given = { ...typed, method }
  const { figures, read } = readFigures(given, tools.locale, unitSystemOf(tools) === 'metric')
  if (read.problems.length > 0) return { ok: false, answer: refuse(given, read.problems) }
  const tried = methods[method](figures, given)
  if (tried.kind === 'asks') return { ok: false, answer: askMissing(given, method, tried) }
  const { result } = tried
  if (!result.ok) return { ok: false, answer: cannot(given, method, result.problems) }
  const outcome = strictest(result.findings)
  return {
    ok: true,
    found: result.value,
    isGood: outcome === 'answer' || outcome === 'heads-up',
    answer: tellFound(given, result.value, result.findings, result.working.map(sayStep)),
  }
}

/** Figures that runs too far apart do not carry. */
const RESTS_ON_RUNS = new Set(['output', 'output_also', 'speed', 'spreader_rate', 'off_target'])

function tellFound(
  given: CalibrateOptions,
  found: Found,
  findings: readonly Finding[],
  working: Text[],
): Answer {
  const outcome = strictest(findings)
  const varied = findings.some(({ id }) => id === 'calibrate.too-varied')
  const holds = findings.filter((one) => one.outcome === 'hold')
  const [first] = holds
  const rest = findings.filter((one) => one !== first)
  const keeps = first === undefined && found.keep !== null
  return {
    reply: reply(outcome, first === undefined ? found.title : sayStep(first), {
      lines: [
        ...(first === undefined ? [] : [say('outputs.not-kept', { result: found.title })]),
        ...found.lines,
        ...rest.map(sayStep),
      ],
      facts: found.facts.filter(({ name }) => !(varied && RESTS_ON_RUNS.has(name))),
      working,
      choices: keeps ? [{ label: keepLabel(given), to: { step: 'keep' }, look: 'main' as const }] : [],
      safety: { about: ['measuring'] },
    }),
    state: given,
  }
}

function keepLabel({ sprayer }: CalibrateOptions): Text {
  return sprayer === undefined ? say('outputs.keep') : say('outputs.keep-for', { sprayer })
}

/** For somebody who has never done it: one way that needs a tape and water; the other ways to press. */
function askMethod(given: CalibrateOptions): Answer {
  return askFor(
    given,
    say('outputs.how'),
    Method.options.map((method) => ({ label: say(`outputs.method-${method}`), set: { method } })),
    {
      lines: [say('outputs.guide'), say('outputs.step-1'), say('outputs.step-2'), say('outputs.step-3')],
      audience: 'person',
      safety: { about: ['measuring'] },
    },
  )
}

function askMissing(
  given: CalibrateOptions,
  method: Method,
  { missing, why }: { readonly missing: readonly (keyof CalibrateOptions)[]; readonly why?: Text },
): Answer {
  const empty = missing.filter((option) => given[option] === undefined)
  const fields = empty.length > 0 ? empty : missing
  return askFigures(given, why ?? say('outputs.needs', { method: say(`outputs.method-${method}`) }), {
    ...FORM,
    fields,
    lines: [say(`outputs.guide-${method}`)],
  })
}

function cannot(given: CalibrateOptions, method: Method, problems: readonly Finding[]): Answer {
  const [first, ...rest] = problems
  if (first?.outcome === 'question' && (method === 'nozzles' || method === 'pans'))
    return askFigures(given, sayStep(first), { ...FORM, fields: ['caught'], lines: rest.map(sayStep) })
  return refuse(given, problems.map(sayStep))
}

function refuse(given: CalibrateOptions, problems: readonly Text[]): Answer {
  return {
    reply: reply('refusal', say('outputs.cannot'), {
      lines: [...problems],
      audience: 'person',
      safety: { about: ['measuring'] },
    }),
    state: given,
  }
}
