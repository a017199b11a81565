import { reader } from '#src/conversation/reader.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { readNumber } from '#src/quantity/number.ts'
import { parseQuantity } from '#src/quantity/parse.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { Strength } from '#src/quantity/rate.ts'
import { plainText } from '#src/quantity/text.ts'
import type { MassUnit, VolumeUnit } from '#src/quantity/units.ts'
import type { DiluteOptions } from './options.ts'

export type Spray =
  | { readonly kind: 'volume'; readonly of: Quantity<VolumeUnit> }
  | { readonly kind: 'mass'; readonly of: Quantity<MassUnit> }

/** How strong the finished spray is to be, as decimal text. */
export type Wanted =
  | { readonly kind: 'percent'; readonly value: string }
  | { readonly kind: 'ppm'; readonly value: string }

export interface Figures {
  readonly spray: Spray | undefined
  readonly wanted: Wanted | undefined
  readonly strength: Strength | undefined
  readonly added: Quantity<MassUnit> | undefined
  readonly problems: readonly Text[]
}

const PPM = /^(?:ppm|parts per million|partes por millon|mg\/l)$/i

/** Reads all options, and keeps every problem. */
export function readDilution(given: DiluteOptions, language: string, isMetric: boolean): Figures {
  const read = reader(language)
  const locale = language.startsWith('es') ? 'es' : 'en'

  function readSpray(text: string): Spray | undefined {
    const asMass = parseQuantity(text, { locale, expect: 'mass' })
    if (asMass.ok) return { kind: 'mass', of: asMass.value }
    const of = read.quantity('amount', text, {
      expect: 'volume',
      ounce: 'fl oz',
      bareUnit: isMetric ? 'L' : 'gal',
    })
    return of === undefined ? undefined : { kind: 'volume', of }
  }

  function readWanted(text: string): Wanted | undefined {
    const number = readNumber(plainText(text), { locale, expected: 'fraction' })
    if (number.ok && PPM.test(number.value.rest)) return { kind: 'ppm', value: number.value.value }
    const share = read.strength('wanted', number.ok && number.value.rest === '' ? `${text} %` : text)
    if (share === undefined || share.kind === 'percent')
      return share && { kind: 'percent', value: share.value }
    read.refuse('wanted', say('dilution.wanted', { text }))
    return undefined
  }

  const figures = {
    spray: given.amount === undefined ? undefined : readSpray(given.amount),
    wanted: given.wanted === undefined ? undefined : readWanted(given.wanted),
    strength: read.strength('strength', given.strength),
    added: read.quantity('added', given.added, { expect: 'mass', ounce: 'oz wt' }),
  }
  return { ...figures, problems: read.problems }
}
