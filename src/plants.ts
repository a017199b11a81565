import { readKey } from '../data/taxa/load.ts'
import type { KeyData, Taxon } from './key/schema.ts'
import type { WordFile } from './words/catalogue.ts'

/** The plants that everything else speaks of, read once when first needed. */
let known: KeyData | null = null
export function plants(): KeyData {
  known ??= readKey()
  return known
}

export function taxonById(id: string): Taxon | undefined {
  return byId().get(id)
}

let ids: ReadonlyMap<string, Taxon> | null = null
function byId(): ReadonlyMap<string, Taxon> {
  ids ??= new Map(plants().taxa.map((taxon) => [taxon.id, taxon]))
  return ids
}

const plain = (text: string) =>
  text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .replace(/\bgrass\b|\bpasto\b|\bzacate\b/g, '')
    .replace(/grass\b/g, '')
    .replace(/\s+/g, ' ')
    .trim()

let names: ReadonlyMap<string, Taxon> | null = null

/** A plant by any name that crews call it, in English or Spanish; the exact name, however it is spelled out. */
export function taxonByName(name: string): Taxon | undefined {
  names ??= namesOf(plants().taxa)
  return byId().get(name.trim()) ?? names.get(plain(name))
}

function namesOf(taxa: readonly Taxon[]): ReadonlyMap<string, Taxon> {
  const found = new Map<string, Taxon>()
  for (const taxon of taxa)
    for (const name of [
      taxon.names.en,
      taxon.scientificName,
      taxon.names.es ?? '',
      ...taxon.otherNames,
      ...taxon.spanishNames,
    ]) {
      const key = plain(name)
      if (key !== '' && !found.has(key)) found.set(key, taxon)
    }
  return found
}

/** What a crew calls this plant, in one of its languages. */
export function plantName(id: string, locale: string): string {
  const taxon = taxonById(id)
  if (taxon === undefined) return id
  return (locale.startsWith('es') ? taxon.names.es : undefined) ?? taxon.names.en
}

/** Grasses that can be a lawn, for lists and for reading what somebody typed. */
export function turfTaxa(): readonly Taxon[] {
  return plants().taxa.filter((taxon) => taxon.role !== 'weed')
}

/** Names of plants as sentences `plant.<id>`, from the same table as everything else about them. */
export function plantWords(): readonly WordFile[] {
  const english: Record<string, string> = {}
  const spanish: Record<string, string> = {}
  for (const { id, names } of plants().taxa) {
    english[`plant.${id}`] = names.en
    if (names.es !== undefined) spanish[`plant.${id}`] = names.es
  }
  return [
    { locale: 'en', name: 'taxa.csv', content: english },
    { locale: 'es', name: 'taxa.csv', content: spanish },
  ]
}
