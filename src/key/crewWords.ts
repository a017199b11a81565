import { type KeyFile, type KeyProblem, parseJson } from './load.ts'
import { type Character, CrewWords, type State } from './schema.ts'

/** The characters with the words of every language added to their own; what names no character or state is a problem. */
export function withCrewWords(
  characters: readonly Character[],
  files: readonly KeyFile[],
  problems: KeyProblem[],
): Character[] {
  const read = files.map((file) => ({ file: file.name, words: parseJson(file, CrewWords, problems) ?? {} }))
  for (const { file, words } of read) problems.push(...unknownIn(words, characters).map(named(file)))
  const all = read.map(({ words }) => words)
  return characters.map((character) => added(character, all))
}

const named = (file: string) => (cell: string) => ({ file, cell, message: 'no such character or state' })

function unknownIn(words: CrewWords, characters: readonly Character[]): string[] {
  return Object.entries(words).flatMap(([id, { states = {}, withPart = {} }]) => {
    const character = characters.find((one) => one.id === id)
    if (character === undefined) return [id]
    const known = new Set(character.states.map((state) => state.id))
    const said = [...Object.keys(states), ...Object.keys(withPart)]
    return said.filter((state) => !known.has(state)).map((state) => `${id}.${state}`)
  })
}

function added(character: Character, all: readonly CrewWords[]): Character {
  const mine = all.flatMap((words) => words[character.id] ?? [])
  if (mine.length === 0) return character
  const listed = (list: 'part' | 'partOfNumber' | 'notWith') => mine.flatMap((words) => words[list] ?? [])
  return {
    ...character,
    aka: [...character.aka, ...listed('part')],
    partOfNumber: [...(character.partOfNumber ?? []), ...listed('partOfNumber')],
    notWith: [...(character.notWith ?? []), ...listed('notWith')],
    states: character.states.map((state): State => {
      const heard = (list: 'states' | 'withPart') => mine.flatMap((words) => words[list]?.[state.id] ?? [])
      return {
        ...state,
        aka: [...state.aka, ...heard('states')],
        withPart: [...(state.withPart ?? []), ...heard('withPart')],
      }
    }),
  }
}
