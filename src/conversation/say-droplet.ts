import { say, type Text } from './text.ts'

/** A droplet class in words; in Spanish the English name stands beside it, since tips and labels print that. */
export function sayDroplet(name: string): Text {
  return say(`words.droplet.${name.replaceAll(' ', '-')}`)
}
