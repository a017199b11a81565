import { say, type Text } from '#src/conversation/text.ts'
import type { SiteDetails } from '#src/store/sites.ts'

const NOTED = ['notes', 'pets', 'children', 'water', 'neighbor'] as const

/** What is noted to mind at an address, each as a line; nothing where nothing is noted. */
export function mindLines(details: SiteDetails): Text[] {
  return NOTED.filter((name) => details[name] !== '').map((name) =>
    say(`site.card.mind-${name}`, { words: details[name] }),
  )
}

/** The same without saying of what kind it is, for a picture. */
export const mindWords = (details: SiteDetails): string[] =>
  NOTED.flatMap((name) => (details[name] === '' ? [] : [details[name]]))
