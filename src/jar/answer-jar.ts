import { JAR_WAIT_MINUTES, type Jar, jarSigns } from '#src/calculator/order/jar.ts'
import { sayDoing, type TankOrder } from '#src/calculator/order/order-tank.ts'
import type { Doing } from '#src/calculator/order/table.ts'
import type { Worked } from '#src/calculator/worked.ts'
import { type Choice, reply } from '#src/conversation/reply.ts'
import { factValue, sayStep } from '#src/conversation/steps.ts'
import { type Param, say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { toolsFor } from '#src/mixing/measuring-tools.ts'
import { safetyOf } from '#src/mixing/safety.ts'
import { orderLines } from '#src/mixing/tank/order.ts'
import type { Part } from '#src/mixing/tank/part.ts'
import { compareQuantities, convert, isSameDimension, type Quantity, scale } from '#src/quantity/quantity.ts'
import { isMassUnit, type VolumeUnit } from '#src/quantity/units.ts'
import type { JarOptions } from './options.ts'

interface Small {
  readonly name: string
  readonly amount: Quantity<VolumeUnit | 'g'>
}

/** A jar that is worked out, with the order of its tank. */
export interface Test {
  readonly parts: readonly Part[]
  readonly jar: Worked<Jar>
  readonly order: Worked<TankOrder>
}

/** What goes in, step by step, how long to wait, and what to look for. */
export function answerJar(given: JarOptions, { parts, jar, order }: Test, tools: Tools): Answer {
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
