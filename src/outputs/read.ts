import type { Flow, Length, Mass, Pressure, Speed, Time, Volume } from '#src/calculator/calibrate/measured.ts'
import type { OutputForm } from '#src/calculator/calibrate/output.ts'
import { readQuantities, splitList } from '#src/conversation/read-quantities.ts'
import { type Reader, reader } from '#src/conversation/reader.ts'
import { say } from '#src/conversation/text.ts'
import { parseQuantity, type QuantityOptions } from '#src/quantity/parse.ts'
import { parseOutput } from '#src/quantity/parse-rate.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { AreaRate, Output } from '#src/quantity/rate.ts'
import type { Dimension, UnitOf } from '#src/quantity/units.ts'
import type { CalibrateOptions } from './options.ts'

/** What is wanted instead of what is. */
export type Wanted =
  | { readonly kind: 'pressure'; readonly value: Pressure }
  | { readonly kind: 'flow'; readonly value: Flow }
  | { readonly kind: 'speed'; readonly value: Speed }
  | { readonly kind: 'output'; readonly value: Output }

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
  readonly to: Wanted | undefined
  readonly before: readonly Mass[]
  readonly after: readonly Mass[]
  readonly target: AreaRate | undefined
  /** Percent, as decimal text. */
  readonly analysis: string | undefined
  readonly tolerance: number | undefined
  readonly spots: number | undefined
  /** Units asked for, of an output or of a speed. */
  readonly form: OutputForm | undefined
  readonly speedUnit: UnitOf<'speed'> | undefined
  readonly isMetric: boolean
}

/** Reads every option; a number alone is in the units of the person who typed it. */
export function readFigures(
  given: CalibrateOptions,
  locale: string,
  isMetric: boolean,
): { readonly figures: Figures; readonly read: Reader } {
  const read = reader(locale)
  const unit = <U>(us: U, metric: U): U => (isMetric ? metric : us)
  const list = <D extends Dimension>(option: keyof CalibrateOptions, options: QuantityOptions<D>) => {
    const text = given[option]
    return text === undefined ? [] : (readQuantities(read, option, splitList(text), options) ?? [])
  }
  const one = <D extends Dimension>(option: keyof CalibrateOptions, expect: D, bareUnit?: UnitOf<D>) =>
    read.quantity(option, given[option], { expect, ...(bareUnit === undefined ? {} : { bareUnit }) })
  const water = { expect: 'volume', ounce: 'fl oz' } as const
  const pans = given.method === 'pans'
  const figures: Figures = {
    ground: one('ground', 'area', unit('ft2', 'm2')),
    used: list('used', { ...water, bareUnit: unit('gal', 'L') }),
    caught: pans ? [] : list('caught', { ...water, bareUnit: unit('fl oz', 'mL') }),
    spacing: one('spacing', 'length', unit('in', 'cm')),
    width: one('width', 'length', unit('ft', 'm')),
    distances: list('distance', { expect: 'length', bareUnit: unit('ft', 'm') }),
    times: list('time', { expect: 'time', bareUnit: 's' }),
    flow: read.quantity('flow', given.flow, { expect: 'flow', ounce: 'fl oz' }),
    speed: one('speed', 'speed', unit('mph', 'km/h')),
    output: read.output('output', given.output),
    // A sprayer's pressure may be "pumped by hand": a figure is needed only where it is calculated with.
    pressure: given.method === 'pressure' ? one('pressure', 'pressure', unit('psi', 'bar')) : undefined,
    to: readWanted(given.to, read, locale),
    before: list('before', { expect: 'mass', ounce: 'oz wt', bareUnit: unit('lb', 'kg') }),
    after: list('after', { expect: 'mass', ounce: 'oz wt', bareUnit: unit('lb', 'kg'), allowZero: true }),
    target: readTarget(given.target, read),
    analysis: readPercent('analysis', given.analysis, read),
    tolerance: numberOr(readPercent('tolerance', given.tolerance, read)),
    spots: readCount(given.spots, read),
    ...readUnit(given, read),
    isMetric,
  }
  return { figures, read }
}

function readWanted(text: string | undefined, read: Reader, language: string): Wanted | undefined {
  if (text === undefined) return undefined
  const locale = language.startsWith('es') ? 'es' : 'en'
  const output = parseOutput(text, { locale })
  if (output.ok) return { kind: 'output', value: output.value }
  for (const kind of ['pressure', 'flow', 'speed'] as const) {
    const found = parseQuantity(text, { locale, expect: kind, ounce: 'fl oz' })
    if (found.ok) return { kind, value: found.value } as Wanted
  }
  read.refuse('to', say('outputs.wanted', { text }))
  return undefined
}

function readTarget(text: string | undefined, read: Reader): AreaRate | undefined {
  const rate = read.rate('target', text, { ounce: 'oz wt' })
  if (rate === undefined || rate.kind === 'area') return rate
  read.refuse('target', say('outputs.target-per-area'))
  return undefined
}

const PERCENT = /^(\d{1,3}(?:[.,]\d{1,4})?)\s*%?$/

function readPercent(option: string, text: string | undefined, read: Reader): string | undefined {
  if (text === undefined) return undefined
  const value = PERCENT.exec(text.trim())?.[1]?.replace(',', '.')
  if (value !== undefined && Number(value) > 0 && Number(value) <= 100) return String(Number(value))
  read.refuse(option, say('outputs.percent', { text }))
  return undefined
}

const numberOr = (text: string | undefined) => (text === undefined ? undefined : Number(text))

function readCount(text: string | undefined, read: Reader): number | undefined {
  if (text === undefined) return undefined
  if (/^\d{1,6}$/.test(text.trim())) return Number(text)
  read.refuse('spots', say('outputs.count', { text }))
  return undefined
}

/** `gal/acre`, `L/ha`, `km/h`: the unit of the answer. */
function readUnit({ unit, method }: CalibrateOptions, read: Reader): Pick<Figures, 'form' | 'speedUnit'> {
  if (unit === undefined) return { form: undefined, speedUnit: undefined }
  const text = `1 ${unit.replace(/^1\s+/, '')}`
  if (method === 'speed')
    return { form: undefined, speedUnit: read.quantity('unit', text, { expect: 'speed' })?.unit }
  const output = read.output('unit', text)
  return {
    form: output === undefined ? undefined : { unit: output.unit, per: output.per },
    speedUnit: undefined,
  }
}
