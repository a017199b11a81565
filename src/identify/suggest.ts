import type { Suggest, Suggestion } from '#src/conversation/ask.ts'
import { indexOf, type Name, rank } from '#src/desk/suggest.ts'
import type { Character, State, Taxon } from '#src/key/index.ts'
import { plants, turfTaxa } from '#src/plants.ts'

/** Completes plants and what was seen of them, from the key's own data and in the person's language. */
export const keySuggestions: Readonly<Record<string, (asked: Suggest) => readonly Suggestion[]>> = {
  weeds: (asked) => suggestPlants(asked, 'weeds'),
  turfs: (asked) => suggestPlants(asked, 'turfs'),
  observed: suggestObserved,
}

const OFFERED = 25

type Index = ReturnType<typeof indexOf>
const indexes = new Map<string, Index>()

/** Weeds: groups that labels name as one, then every plant. Turfs: the grasses that can be a lawn. */
function suggestPlants({ by, typed }: Suggest, which: 'weeds' | 'turfs'): Suggestion[] {
  const language = languageOf(by.locale)
  const id = `${which} ${language}`
  const index = indexes.get(id) ?? indexOf(which === 'turfs' ? turfs(language) : weeds(language))
  indexes.set(id, index)
  const names = [...new Set(rank(index, typed).map(({ name }) => name))]
  return names.slice(0, OFFERED).map((name) => ({ name, value: name }))
}

const languageOf = (locale: string) => (locale.startsWith('es') ? 'es' : 'en')

function nameOf(taxon: Taxon, language: string): Name {
  const { names, scientificName, otherNames, spanishNames } = taxon
  const name = (language === 'es' ? names.es : undefined) ?? names.en
  return { name, also: [names.en, scientificName, ...otherNames, ...spanishNames] }
}

const turfs = (language: string) => turfTaxa().map((taxon) => nameOf(taxon, language))

function weeds(language: string): Name[] {
  const { groups, taxa, commonWeeds } = plants()
  const common = new Set(commonWeeds)
  const weedy = taxa.filter(({ role }) => role !== 'turf')
  const ordered = [...weedy.filter(({ id }) => common.has(id)), ...weedy.filter(({ id }) => !common.has(id))]
  const named = groups
    .filter(({ members }) => members.some((id) => weedy.some((taxon) => taxon.id === id)))
    .map(({ name }) => ({ name: (language === 'es' ? name.es : undefined) ?? name.en, also: [name.en] }))
  return [...ordered.map((taxon) => nameOf(taxon, language)), ...named]
}

/**
 * Completes the last piece of a list: `vernation=folded; hab` offers the ways in which it may spread. The value is the
 * whole list with ids, since that is what stays in the field.
 */
function suggestObserved({ by, typed }: Suggest): Suggestion[] {
  const at = Math.max(typed.lastIndexOf(';'), typed.lastIndexOf(',')) + 1
  const before = typed.slice(0, at).trim()
  const lead = before === '' ? '' : `${before} `
  const language = languageOf(by.locale)
  const observations = indexes.get(`observed ${language}`) ?? indexOf(allObservations(language))
  indexes.set(`observed ${language}`, observations)
  const taken = new Set([...before.matchAll(/([a-z_]+)\s*=/g)].map((match) => match[1] ?? ''))
  return rank(observations, typed.slice(at))
    .flatMap(({ name, also = [] }) => {
      const [value = name] = also
      return taken.has(value.split('=')[0] ?? '')
        ? []
        : [{ name: `${lead}${name}`, value: `${lead}${value}` }]
    })
    .slice(0, OFFERED)
}

/** Every state as "bud leaf: folded in two, like a closed book", found by its id and everyday words too. */
function allObservations(language: string): Name[] {
  return plants().characters.flatMap((character) =>
    character.states.map((state) => ({
      name: inWords(character, state, language),
      also: [`${character.id}=${state.id}`, ...character.aka, ...state.aka],
    })),
  )
}

function inWords(character: Character, state: State, language: string): string {
  const spanish = language === 'es' ? state.words.es : undefined
  return spanish ?? `${character.aka[0] ?? character.id}: ${state.words.en}`
}
