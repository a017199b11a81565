import type { CrewStore } from '#src/store/crew-store.ts'

/**
 * Names of this crew's own places, sprayers and people that sound like an alarm by themselves: "Dizzy Ave", "Vomit
 * Creek". Only these are looked past, so that a property called "Eye" hides nothing.
 */
export async function alarmingNames(
  store: CrewStore,
  isAlarm: (name: string) => boolean,
): Promise<readonly string[]> {
  const sites = await store.sites.list()
  const all = [
    ...sites.flatMap(({ name, address }) => [name, address, streetOf(address)]),
    ...(await store.sites.allAreas()).map(({ name }) => name),
    ...(await store.sprayers.list()).map(({ name }) => name),
    ...(await store.people.list()).map(({ name }) => name),
  ]
  return [...new Set(all)].filter((name) => name !== '' && isAlarm(name)).sort((a, b) => b.length - a.length)
}

/** `12 Dizzy Ave, Noplace NC 27000` is spoken of as `Dizzy Ave`. */
function streetOf(address: string): string {
  return (address.split(',')[0] ?? '').replace(/^\s*\d+\w?\s+/, '').trim()
}

/** House number and street at the beginning of a US address that ends with its ZIP; the rest of it is still heard. */
const STREET =
  /^\s*\d+\w?\s+(?:[\p{L}'.-]+\s+){1,3}(?:ave|avenue|st|street|rd|road|ln|lane|dr|drive|ct|court|blvd|way|cir|circle|pl|place|ter|terrace|hwy|highway|pkwy|trl|trail|loop|sq|row|creek)\b\.?(?=.*\b\d{5}(?:-\d{4})?\s*$)/iu

/** The text without these names. A name of one word is looked past only where it is all that was typed. */
export function withoutNames(text: string, names: readonly string[]): string {
  return names.reduce(
    (rest, name) => {
      if (rest.trim().toLowerCase() === name.toLowerCase()) return ''
      return /\s/.test(name) ? rest.replace(wordsOf(name), ' , ') : rest
    },
    text.replace(STREET, ' , '),
  )
}

function wordsOf(name: string): RegExp {
  const plain = name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
  return new RegExp(`(?<![\\p{L}\\p{N}])${plain}(?![\\p{L}\\p{N}])`, 'giu')
}
