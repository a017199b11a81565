import { DropletRule } from './limits.ts'

const CLASSES = DropletRule.shape.classes.element.options
export type Droplet = (typeof CLASSES)[number]

const SPANISH: readonly (readonly [RegExp, string])[] = [
  [/^extremadamente /, 'extremely '],
  [/^muy /, 'very '],
  [/(?:fin[ao]s?)$/, 'fine'],
  [/(?:medi[ao]s?|median[ao]s?)$/, 'medium'],
  [/(?:grues[ao]s?)$/, 'coarse'],
]

/** A droplet class as typed, in English or in Spanish: `coarse`, `muy gruesa`, `gota media`. */
export function readDroplet(text: string): Droplet | undefined {
  const plain = text
    .trim()
    .toLowerCase()
    .replace(/^gotas? /, '')
  const english = SPANISH.reduce((said, [from, to]) => said.replace(from, to), plain)
  return CLASSES.find((one) => one === plain || one === english)
}
