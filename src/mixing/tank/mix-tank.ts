import type { Adjuvant } from '#src/calculator/mix/request.ts'
import { type Reader, reader } from '#src/conversation/reader.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { mayI } from '#src/label/allow.ts'
import type { Rate } from '#src/quantity/rate.ts'
import { answerHold } from '../answer-hold.ts'
import { askHowMuch, refuse } from '../ask-mix.ts'
import { appliedOf, basisOf, plan } from '../basis.ts'
import { chooseRate } from '../choose-rate.ts'
import { checkContents } from '../contents.ts'
import { liftNote } from '../lift.ts'
import type { MixOptions } from '../options.ts'
import { askForText, findOutput } from '../output.ts'
import type { Ready } from '../ready.ts'
import { allowSettingsOf, situationOf } from '../situation.ts'
import { tellOfOldEntry } from '../tell-leads.ts'
import { readVolumes } from '../volumes.ts'
import { tankAdjuvants } from './adjuvants.ts'
import { answerTank } from './answer-tank.ts'
import { findParts, refuseTank } from './find-parts.ts'
import { type Dosed, judgeDosed, partnersOf } from './judge.ts'
import { orderOf } from './order.ts'
import { askedFor, type JudgedPart, type Part } from './part.ts'
import type { Planned } from './planned.ts'
import { answerStopped } from './stopped.ts'
import { refusePartners } from './together.ts'

/** Several products in one tank: every label is asked, each amount is worked out, and the order is told. */
export async function mixTank(given: MixOptions, tools: Tools): Promise<Answer> {
  const found = await findParts(given, tools)
  if (!found.ok) return found.ask
  const parts = found.value
  const [first] = parts
  if (given.in_tank_output !== undefined || given.in_tank_rate !== undefined)
    return refuseTank(say('mixing.tank.same-leftover'))
  const apart = refusePartners(parts)
  if (apart !== null) return apart
  const others = parts.slice(1).map(({ named }) => named.product.id)
  const contents = await checkContents(given, first.named, tools, others)
  if (!contents.ok) return contents.ask

  const judged: JudgedPart[] = []
  for (const part of parts) judged.push(await judge(part, parts, tools))
  const stopped = answerStopped(
    given,
    judged.map((part) => ({ part, verdict: part.verdict })),
    ['hold', 'refusal'],
  )
  if (stopped !== null) return stopped

  const rates: Rate[] = []
  for (const part of judged) {
    const rate = chooseRate(part, part.situation, part.verdict, tools)
    if (!rate.ok) return askedFor(given, part.index, rate.ask)
    rates.push(rate.value)
  }
  const read = reader(tools.locale)
  const volumes = readVolumes(given, first.named, read)
  const output = await findOutput(given, first.named, read, tools)
  if (!output.ok) return output.ask
  if (read.problems.length > 0) return refuse(read.problems)
  if (volumes === null) return askHowMuch(given, first.named)
  const needsOutput = rates.some(({ kind }) => kind === 'area') || volumes.ground !== undefined
  if (output.value === null && needsOutput) return askForText(given, 'output', say('mixing.no-output'))

  const readies = judged.map(
    (part, at): Ready => ({
      given: part.given,
      named: part.named,
      rate: rates[at] ?? NO_RATE,
      volumes,
      output: output.value?.output,
      notes: [
        ...(part.lifted === null ? [] : [part.lifted]),
        ...(at === 0 ? [...contents.notes, ...(output.value?.notes ?? [])] : []),
      ],
      told: at === 0 ? contents.told : [],
      lifted: part.lifted,
      situation: part.situation,
      verdict: null,
    }),
  )
  return work(given, { judged, readies }, read, tools)
}

const NO_RATE: Rate = { kind: 'share', value: '0', unit: '%', of: 'product', basis: 'v/v' }

async function judge(part: Part, parts: readonly Part[], tools: Tools): Promise<JudgedPart> {
  const situation = {
    ...(await situationOf(part.given, part.named, tools)),
    partners: partnersOf(parts, part),
  }
  const verdict = mayI(part.named.product.live.body, situation, allowSettingsOf(tools.crew))
  await tellOfOldEntry(part.named, verdict, tools)
  return { ...part, situation, verdict, lifted: await liftNote(part.named, tools) }
}

interface Tank {
  readonly judged: readonly JudgedPart[]
  readonly readies: readonly Ready[]
}

async function work(
  given: MixOptions,
  { judged, readies }: Tank,
  read: Reader,
  tools: Tools,
): Promise<Answer> {
  const adjuvants = tankAdjuvants(given, judged, read)
  const temperature = read.quantity('temperature', given.temperature, {
    expect: 'temperature',
    bareUnit: 'F',
  })
  if (!adjuvants.ok) return adjuvants.ask
  const bases = readies.map((ready, at) => basisOf(ready, at === 0 ? [...adjuvants.value] : [], read, tools))
  if (read.problems.length > 0) return refuse(read.problems)
  const order = orderOf(judged, adjuvants.value.map(nameOf))
  if (!order.order.ok) {
    const [problem, ...more] = order.order.problems
    return refuseTank(
      problem === undefined ? say('mixing.cannot') : say(problem.id, problem.with),
      more.map((one) => say(one.id, one.with)),
    )
  }

  const more = { adjuvant: adjuvants.value.length > 0, temperature }
  const output = readies[0]?.output
  const verdicts = (dosed: readonly Dosed[]) =>
    judged.map((part) => ({ part, verdict: judgeDosed(part, dosed, { output, more }, tools) }))
  const asked = verdicts(judged.map((part, at) => ({ part, rate: readies[at]?.rate ?? NO_RATE })))
  const stopped = answerStopped(given, asked)
  if (stopped !== null) return stopped

  const planned: Planned[] = []
  for (const [at, part] of judged.entries()) {
    const [ready, basis, verdict] = [readies[at], bases[at], asked[at]?.verdict]
    if (ready === undefined || basis === undefined || verdict === undefined)
      throw new RangeError('A product of the tank is missing')
    const maxima = verdict.ceilings.map(({ rates }) => rates)
    const outcome = plan({ ...ready, verdict }, { ...basis, ...(maxima.length === 0 ? {} : { maxima }) })
    if (outcome.outcome !== 'answer') {
      const held = answerHold({ ...ready, verdict }, outcome)
      const title = say('mixing.tank.of', { product: part.named.product.name, what: held.reply.title })
      return { ...held, reply: { ...held.reply, title }, state: given }
    }
    planned.push({ part, ready: { ...ready, verdict }, outcome })
  }
  const dosed = planned.map(
    ({ part, ready, outcome }): Dosed => ({ part, rate: appliedOf(outcome) ?? ready.rate }),
  )
  const after = verdicts(dosed)
  const held = answerStopped(given, after)
  if (held !== null) return held
  const done = planned.map((one, at) => ({
    ...one,
    ready: { ...one.ready, verdict: after[at]?.verdict ?? one.ready.verdict },
  }))
  return answerTank(given, { planned: done, dosed, order: order.order, unplaced: order.unplaced }, tools)
}

const nameOf = ({ name }: Adjuvant) => name
