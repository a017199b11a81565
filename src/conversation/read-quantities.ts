import { parseQuantity, type QuantityOptions } from '#src/quantity/parse.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { Dimension, UnitOf } from '#src/quantity/units.ts'
import type { Reader } from './reader.ts'

/** `0.5 gal; 0.52 gal`, one a line, or `38, 40, 41 fl oz`: a comma parts them only before a space. */
export function splitList(text: string): string[] {
  return text
    .split(/[;\n]|,\s+/)
    .map((one) => one.trim())
    .filter((one) => one !== '')
}

/**
 * Several measurements of one kind. A number alone takes the unit that stands beside another of the list, so that
 * `38, 40, 41 fl oz` is typed with one unit. Every problem is kept by the reader; then nothing is returned.
 */
export function readQuantities<D extends Dimension>(
  read: Reader,
  option: string,
  texts: readonly string[],
  options: QuantityOptions<D>,
): Quantity<UnitOf<D>>[] | undefined {
  const unit = unitAmong(texts, options) ?? options.bareUnit
  const found = texts.map((text) =>
    read.quantity(option, text, { ...options, ...(unit === undefined ? {} : { bareUnit: unit }) }),
  )
  const known = found.filter((one) => one !== undefined)
  return known.length === texts.length && known.length > 0 ? known : undefined
}

/** The unit of the first measurement that carries one. */
function unitAmong<D extends Dimension>(
  texts: readonly string[],
  { bareUnit: _, ...options }: QuantityOptions<D>,
): UnitOf<D> | undefined {
  for (const text of texts) {
    const read = parseQuantity<D>(text, options)
    if (read.ok) return read.value.unit
  }
  return undefined
}
