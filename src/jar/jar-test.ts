import { type JarItem, scaleToJar } from '#src/calculator/order/jar.ts'
import { askFigures } from '#src/conversation/ask-figures.ts'
import { unitSystemOf } from '#src/conversation/own-units.ts'
import { type Reader, reader } from '#src/conversation/reader.ts'
import { sayStep } from '#src/conversation/steps.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { mayI } from '#src/label/allow.ts'
import { inUnitOf } from '#src/label/amounts.ts'
import { refuse } from '#src/mixing/ask-mix.ts'
import { chooseRate } from '#src/mixing/choose-rate.ts'
import { findOutput } from '#src/mixing/output.ts'
import { allowSettingsOf, situationOf } from '#src/mixing/situation.ts'
import { tankAdjuvants } from '#src/mixing/tank/adjuvants.ts'
import { findParts, refuseTank } from '#src/mixing/tank/find-parts.ts'
import { productOnGround } from '#src/mixing/tank/judge.ts'
import { orderOf } from '#src/mixing/tank/order.ts'
import { askedFor, type Part } from '#src/mixing/tank/part.ts'
import { refusePartners } from '#src/mixing/tank/together.ts'
import { type AreaRate, areaRate, type Output, type Rate } from '#src/quantity/rate.ts'
import { isMassUnit } from '#src/quantity/units.ts'
import { answerJar } from './answer-jar.ts'
import type { JarOptions } from './options.ts'

export const FORM = { form: 'jar.form' } as const

/** A jar that every shop has (common practice, no source). */
const USUAL_JAR = { us: { value: '1', unit: 'qt' }, metric: { value: '1', unit: 'L' } } as const
const MOST_JAR = { value: '5', unit: 'gal' } as const

/** The tank's mix in a jar: what goes in, in which order, how long to wait and what to look for. */
export async function jarTest(given: JarOptions, tools: Tools): Promise<Answer> {
  if (given.product === undefined || given.also === undefined)
    return askFigures(given, say('jar.ask.products'), {
      ...FORM,
      fields: ['product', 'also'],
      about: ['mixing'],
    })
  const found = await findParts(given, tools)
  if (!found.ok) return found.ask
  const parts = found.value
  const apart = refusePartners(parts)
  if (apart !== null) return apart
  const read = reader(tools.locale)
  const jar = read.quantity('jar', given.jar, { expect: 'volume', ounce: 'fl oz', limit: MOST_JAR })
  const output = await outputOf(given, parts[0], read, tools)
  if (!output.ok) return output.ask
  const rates: Rate[] = []
  for (const part of parts) {
    const rate = await rateFor(part, tools)
    if (!rate.ok) return askedFor(given, part.index, rate.ask)
    rates.push(rate.value)
  }
  const adjuvants = tankAdjuvants(given, parts, read)
  if (read.problems.length > 0) return refuse(read.problems)
  if (!adjuvants.ok) return adjuvants.ask
  const items = [
    ...parts.map((part, at) => ({
      name: part.named.product.name,
      rate: productOnGround(part.named, rates[at] ?? NO_RATE, output.value),
    })),
    ...adjuvants.value.map(({ name, rate }) => ({ name, rate: onGround(rate, output.value) })),
  ]
  const unknown = items.find(({ rate }) => rate === null)
  if (unknown !== undefined) return refuseTank(say('jar.no-scale', { name: unknown.name }))
  const known = items.flatMap(({ name, rate }): JarItem[] => (rate === null ? [] : [{ name, rate }]))
  const scaled = scaleToJar(known, output.value, jar ?? USUAL_JAR[unitSystemOf(tools)])
  const { order } = orderOf(
    parts,
    adjuvants.value.map(({ name }) => name),
  )
  const problems = [...(scaled.ok ? [] : scaled.problems), ...(order.ok ? [] : order.problems)]
  if (!scaled.ok || !order.ok) return refuse(problems.map(sayStep))
  return answerJar(given, { parts, jar: scaled, order }, tools)
}

const NO_RATE: Rate = { kind: 'share', value: '0', unit: '%', of: 'product', basis: 'v/v' }
const PER_THOUSAND = { value: '1', unit: '1000 ft2' } as const

function onGround(rate: Rate, output: Output): AreaRate | null {
  const unit = rate.kind !== 'share' && isMassUnit(rate.unit) ? 'oz wt' : 'fl oz'
  return inUnitOf(rate, areaRate(0, unit, PER_THOUSAND), { output })
}

type FoundOutput =
  | { readonly ok: true; readonly value: Output }
  | { readonly ok: false; readonly ask: Answer }

/** How heavily the tank is sprayed decides how strong it is: typed, or measured with this sprayer. */
async function outputOf(given: JarOptions, first: Part, read: Reader, tools: Tools): Promise<FoundOutput> {
  const found = await findOutput(given, first.named, read, tools)
  if (!found.ok)
    return {
      ok: false,
      ask: askFigures(given, found.ask.reply.title, { ...FORM, fields: ['output'], about: ['mixing'] }),
    }
  if (found.value !== null) return { ok: true, value: found.value.output }
  if (read.problems.length > 0) return { ok: false, ask: refuse(read.problems) }
  return {
    ok: false,
    ask: askFigures(given, say('mixing.no-output'), { ...FORM, fields: ['output'], about: ['mixing'] }),
  }
}

/** The rate that would go out. What else a label says is asked when the tank is mixed, not for a jar of it. */
async function rateFor(part: Part, tools: Tools) {
  const situation = await situationOf(part.given, part.named, tools)
  const verdict = mayI(part.named.product.live.body, situation, allowSettingsOf(tools.crew))
  return chooseRate({ ...part, lifted: null }, situation, { ...verdict, reasons: [] }, tools)
}
