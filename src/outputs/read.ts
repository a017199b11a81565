import type { Flow, Length, Mass, Pressure, Speed, Time, Volume } from '#src/calculator/calibrate/measured.ts'
import { type Reader, reader } from '#src/conversation/reader.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { AreaRate, Output } from '#src/quantity/rate.ts'
import type { Dimension, UnitOf } from '#src/quantity/units.ts'
import type { CalibrateOptions } from './options.ts'

/** The options as figures; several runs stand in one option, parted by semicolons. */
export interface Figures {
  readonly ground: Quantity<UnitOf<'area'>> | undefined
  readonly used: readonly Volume[]
  readonly caught: readonly Volume[]
  readonly spacing: Length | undefined
  readonly width: Length | undefined
  readonly distances: readonly Length[]
  readonly times: readonly Time[]
  readonly flow: Flow | undefined
  readonly speed: Speed | undefined
  readonly output: Output | undefined
  readonly pressure: Pressure | undefined
  readonly newPressure: Pressure | undefined
  readonly before: readonly Mass[]
  readonly after: readonly Mass[]
  readonly target: AreaRate | undefined
}

export function readFigures(given: CalibrateOptions, locale: string): { figures: Figures; read: Reader } {
  const read = reader(locale)
  const list = <D extends Dimension>(
    option: string,
    text: string | undefined,
    expect: D,
    bareUnit?: UnitOf<D>,
  ) =>
    (text ?? '')
      .split(';')
      .map((one) => one.trim())
      .filter((one) => one !== '')
      .map((one) => read.quantity(option, one, { expect, ...(bareUnit === undefined ? {} : { bareUnit }) }))
      .filter((one) => one !== undefined)
  const target = read.rate('target', given.target)
  return {
    read,
    figures: {
      ground: read.quantity('ground', given.ground, { expect: 'area', bareUnit: 'ft2' }),
      used: list('used', given.used, 'volume', 'gal'),
      caught: list('caught', given.caught, 'volume', 'fl oz'),
      spacing: read.quantity('spacing', given.spacing, { expect: 'length', bareUnit: 'in' }),
      width: read.quantity('width', given.width, { expect: 'length', bareUnit: 'ft' }),
      distances: list('distance', given.distance, 'length', 'ft'),
      times: list('time', given.time, 'time', 's'),
      flow: read.quantity('flow', given.flow, { expect: 'flow' }),
      speed: read.quantity('speed', given.speed, { expect: 'speed', bareUnit: 'mph' }),
      output: read.output('output', given.output),
      pressure: read.quantity('pressure', given.pressure, { expect: 'pressure', bareUnit: 'psi' }),
      newPressure: read.quantity('new_pressure', given.new_pressure, { expect: 'pressure', bareUnit: 'psi' }),
      before: list('before', given.before, 'mass', 'lb'),
      after: list('after', given.after, 'mass', 'lb'),
      target: target?.kind === 'area' ? target : undefined,
    },
  }
}
