import { z } from 'zod'
import { convertRate, rateProblemStep } from '#src/calculator/rate/convert.ts'
import type { Need } from '#src/calculator/rate/figures.ts'
import { field, textOf } from '#src/conversation/fields.ts'
import { reader } from '#src/conversation/reader.ts'
import { reply } from '#src/conversation/reply.ts'
import { factValue, sayStep } from '#src/conversation/steps.ts'
import { say } from '#src/conversation/text.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { sayRate } from '#src/quantity/said.ts'

const options = z.strictObject({
  amount: z
    .string()
    .min(1)
    .max(500)
    .meta({ aliases: ['rate'] }),
  to: z.string().min(1).max(500),
  strength: z.string().max(500).optional(),
  density: z.string().max(500).optional(),
  output: z
    .string()
    .max(500)
    .optional()
    .meta({ aliases: ['carrier'] }),
})
type Options = z.infer<typeof options>

/** Says a label rate in another unit: per acre or per 1,000 ft², product or active ingredient. */
export default defineCommand({
  name: 'rate',
  may: 'crew',
  options,
  state: options,
  start: async (given, tools) => convert(given, tools),
  next: async (given, event, tools) => {
    const typed = event.kind === 'submit' ? textOf(event.fields, String(event.value)) : ''
    return convert({ ...given, [String(event.value)]: typed }, tools)
  },
})

const OPTION_OF: Record<Need, keyof Options> = {
  'strength-ai': 'strength',
  'strength-ae': 'strength',
  density: 'density',
  'mix-density': 'density',
  output: 'output',
}

function convert(given: Options, { locale }: Tools): Answer {
  const read = reader(locale)
  const rate = read.rate('amount', given.amount)
  const form = read.rateForm('to', given.to)
  const strength = read.strength('strength', given.strength)
  const density = read.density('density', given.density)
  const output = read.output('output', given.output)
  if (rate === undefined || form === undefined || read.problems.length > 0)
    return { reply: reply('refusal', say('rate.cannot'), { lines: [...read.problems], audience: 'person' }) }
  const converted = convertRate(rate, form, {
    ...(strength === undefined ? {} : { strengths: [strength] }),
    ...(density === undefined ? {} : { density }),
    ...(output === undefined ? {} : { output }),
  })
  if (!converted.ok) {
    const problem = sayStep(rateProblemStep(converted.error))
    return converted.error.kind === 'needs'
      ? askFor(OPTION_OF[converted.error.need], given, problem)
      : { reply: reply('refusal', say('rate.cannot'), { lines: [problem], audience: 'person' }) }
  }
  const said = sayRate(converted.value.rate)
  return {
    reply: reply('answer', say('rate.converted', { rate: said }), {
      lines: [say('rate.same-as', { from: sayRate(rate), to: said })],
      facts: [{ name: 'converted', value: factValue(said.value), unit: said.unit }],
      working: converted.value.working.map(sayStep),
      safety: { about: ['measuring'] },
    }),
  }
}

function askFor(option: keyof Options, given: Options, problem: ReturnType<typeof say>): Answer {
  return {
    reply: reply('question', problem, {
      form: {
        title: say('rate.needs.title'),
        open: say('common.fill-in'),
        fields: [field('rate.form', option, { required: true, hint: true })],
        to: { step: 'figure', value: option },
      },
      audience: 'person',
      safety: { about: ['measuring'] },
    }),
    state: given,
  }
}
