import { plantName, taxonByName } from '#src/plants.ts'

/** A weed by its English name where the key knows it, whatever it was called. */
export function targetOf(words: string): { words: string; taxon?: string } {
  const taxon = taxonByName(words)
  return taxon === undefined
    ? { words: words.slice(0, 200) }
    : { words: plantName(taxon.id, 'en'), taxon: taxon.id }
}
