import { unitSystemOf } from '#src/conversation/own-units.ts'
import type { Fact } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { big, decimalText } from '#src/quantity/big.ts'
import { convert, type Quantity } from '#src/quantity/quantity.ts'
import type { Clothing } from '#src/weather/crew-heat.ts'
import { judgeCrewHeat } from '#src/weather/crew-heat.ts'
import type { Guidance } from '#src/weather/guidance.ts'
import { dryingOf, readAir } from '#src/weather/humidity.ts'
import type { Readings } from '#src/weather/readings.ts'
import type { Reason } from '#src/weather/reason.ts'
import type { ConditionsOptions } from './options.ts'

/** What the air does to drops and to people, as far as temperature and humidity tell it. */
export interface AirToday {
  readonly lines: readonly Text[]
  readonly facts: readonly Fact[]
  readonly reasons: readonly Reason[]
}

const NOTHING: AirToday = { lines: [], facts: [], reasons: [] }

export function airOf(
  readings: Readings,
  clothing: ConditionsOptions['clothing'],
  guidance: Guidance,
  tools: Tools,
): AirToday {
  const { temperature, humidityPercent } = readings
  const air = readAir(readings)
  if (air === null || 'id' in air || temperature === undefined || humidityPercent === undefined)
    return NOTHING
  const isMetric = unitSystemOf(tools) === 'metric'
  const { wetBulb, deltaT, vaporDeficit } = dryingOf(air)
  const heat = judgeCrewHeat(temperature, humidityPercent, wornOf(clothing), guidance)
  const wet = isMetric ? wetBulb : tenth(convert(wetBulb, 'F'))
  const feels = isMetric ? tenth(convert(heat.heatIndex, 'C')) : heat.heatIndex
  return {
    lines: [
      say('conditions.air', {
        deltaT,
        deltaTF: tenth({ value: decimalText(big(deltaT.value).times('1.8')), unit: 'F' }),
        vpd: vaporDeficit,
        wetBulb: wet,
        heatIndex: feels,
      }),
    ],
    facts: [
      fact('wet_bulb', wet),
      fact('delta_t', deltaT),
      fact('vpd', vaporDeficit),
      fact('heat_index', feels),
      { name: 'heat_band', value: heat.actOn },
    ],
    reasons: heat.reasons,
  }
}

const tenth = <Q extends Quantity>(one: Q): Q => ({
  ...one,
  value: decimalText(big(one.value).toDecimalPlaces(1)),
})

function fact(name: string, { value, unit }: { readonly value: string; readonly unit: string }): Fact {
  return { name, value: factValue(value), unit }
}

/** What is not at hand is no clothing. */
function wornOf(clothing: ConditionsOptions['clothing']): Clothing {
  return clothing === 'coveralls' || clothing === 'chemical-resistant suit' ? clothing : 'work clothes'
}
