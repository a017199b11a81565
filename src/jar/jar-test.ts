import { JAR_WAIT_MINUTES, type Jar, type JarItem, jarSigns, scaleToJar } from '#src/calculator/order/jar.ts'
import { sayDoing, type TankOrder } from '#src/calculator/order/order-tank.ts'
import type { Doing } from '#src/calculator/order/table.ts'
import type { Worked } from '#src/calculator/worked.ts'
import { askFigures } from '#src/conversation/ask-figures.ts'
import { unitSystemOf } from '#src/conversation/own-units.ts'
import { type Reader, reader } from '#src/conversation/reader.ts'
import { type Choice, reply } from '#src/conversation/reply.ts'
import { factValue, sayStep } from '#src/conversation/steps.ts'
import { type Param, say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { mayI } from '#src/label/allow.ts'
import { inUnitOf } from '#src/label/amounts.ts'
import { refuse } from '#src/mixing/ask-mix.ts'
import { chooseRate } from '#src/mixing/choose-rate.ts'
import { toolsFor } from '#src/mixing/measuring-tools.ts'
import { findOutput } from '#src/mixing/output.ts'
import { safetyOf } from '#src/mixing/safety.ts'
import { allowSettingsOf, situationOf } from '#src/mixing/situation.ts'
import { tankAdjuvants } from '#src/mixing/tank/adjuvants.ts'
import { findParts, refuseTank } from '#src/mixing/tank/find-parts.ts'
import { productOnGround } from '#src/mixing/tank/judge.ts'
import { orderLines, orderOf } from '#src/mixing/tank/order.ts'
import { askedFor, type Part } from '#src/mixing/tank/part.ts'
import { refusePartners } from '#src/mixing/tank/together.ts'
import { compareQuantities, convert, isSameDimension, type Quantity, scale } from '#src/quantity/quantity.ts'
import { type AreaRate, areaRate, type Output, type Rate } from '#src/quantity/rate.ts'
import { isMassUnit, type VolumeUnit } from '#src/quantity/units.ts'
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
  return answer(given, { parts, jar: scaled, order }, tools)
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

interface Small {
  readonly name: string
  readonly amount: Quantity<VolumeUnit | 'g'>
}

interface Test {
  readonly parts: readonly Part[]
  readonly jar: Worked<Jar>
  readonly order: Worked<TankOrder>
}

function answer(given: JarOptions, { parts, jar, order }: Test, tools: Tools): Answer {
  const { volume, start, amounts } = jar.value
  const small = amounts.map(({ name, amount }) => ({ name, amount: inSmall(amount) }))
  const byName = new Map<string, Param>(small.map(({ name, amount }) => [name, amount]))
  const mind = [...small.flatMap((one) => tooSmall(one, tools)), ...order.findings.map(sayStep)]
  const own = { ...order.value, fill: null }
  const [, ...steps] = orderLines(own, byName, say('jar.fill', { jar: volume }), sayInJar)
  return {
    reply: reply(mind.length > 0 ? 'heads-up' : 'answer', titleOf(small, volume), {
      lines: [
        say('jar.start', { start }),
        ...steps,
        say('jar.wait', { minutes: JAR_WAIT_MINUTES }),
        say('jar.look', { signs: { all: jarSigns.map((sign) => say(`order.sign.${sign}`)), join: 'or' } }),
        ...mind,
        say('jar.same-water'),
      ],
      facts: [
        { name: 'jar', value: factValue(volume.value), unit: volume.unit },
        { name: 'jar_water', value: factValue(start.value), unit: start.unit },
        ...small.map(({ amount }, at) => ({
          name: at === 0 ? 'jar_amount' : `jar_amount_${at + 1}`,
          value: factValue(amount.value),
          unit: amount.unit,
        })),
        { name: 'order', value: order.value.items.map(({ item }) => item.name).join('; ') },
      ],
      working: [...jar.working, ...order.working].map(sayStep),
      choices: seenChoices(),
      safety: safetyOfAll(parts),
    }),
    state: given,
  }
}

/** A jar is stirred where a tank is agitated. */
function sayInJar(doing: Doing): Text {
  return doing.startsWith('agitate') ? say('jar.stir') : sayStep(sayDoing(doing))
}

/** With fewer steps of the tool than this, rounding alone is five percent off (common practice, no source). */
const FEWEST_STEPS = 10

/** Amounts that the crew's tools hardly tell apart: a larger jar measures better. */
function tooSmall({ name, amount }: Small, { crew }: Tools): Text[] {
  const steps = toolsFor(undefined, crew)
    .filter(({ kind, step }) => isSameDimension(step.unit, amount.unit) && kind !== 'spoon')
    .map(({ step }) => step)
    .sort(compareQuantities)
  const [finest] = steps
  if (finest === undefined || compareQuantities(amount, scale(finest, FEWEST_STEPS)) >= 0) return []
  return [say('jar.small', { name, amount, step: finest })]
}

function titleOf(amounts: readonly Small[], jar: Quantity): Text {
  const parts = amounts.map((one) => say('mixing.part', { ...one }))
  return say('jar.title', { parts: { all: parts, join: 'and' }, jar })
}

/** A jar takes drops and pinches: milliliters and grams. */
function inSmall(amount: Quantity): Quantity<VolumeUnit | 'g'> {
  return isMassUnit(amount.unit as 'g') ? convert(amount, 'g') : convert(amount, 'mL')
}

function seenChoices(): Choice[] {
  const signs = jarSigns.map(
    (sign): Choice => ({
      label: say(`jar.saw.${sign}`),
      to: { step: 'seen', value: sign },
    }),
  )
  return [{ label: say('jar.saw.nothing'), to: { step: 'seen', value: 'nothing' } }, ...signs]
}

function safetyOfAll(parts: readonly Part[]) {
  const all = parts.map(({ named }) => safetyOf(named, false))
  return { about: ['mixing'], label: all.flatMap((one) => one.label ?? []) }
}
