import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Cell } from '#src/key/index.ts'
import { plants, plantWords } from '#src/plants.ts'
import type { LaterWords, WordFile } from '#src/words/catalogue.ts'

/**
 * The key's own words as sentences, from the same files as everything else about it: `ask.<character>`,
 * `state.<character>.<state>`, `look-alike.<number>`, `plant-group.<id>`.
 */
export function keyWords(): readonly WordFile[] {
  const english: Record<string, string> = {}
  const spanish: Record<string, string> = {}
  const add = (id: string, words: { readonly en: string; readonly es?: string | undefined }) => {
    english[id] = words.en
    if (words.es !== undefined) spanish[id] = words.es
  }
  for (const { id, ask, states } of plants().characters) {
    add(`ask.${id}`, ask)
    for (const state of states) add(`state.${id}.${state.id}`, state.words)
  }
  for (const { n, words } of plants().lookAlikes) add(`look-alike.${n}`, words)
  for (const { id, name } of plants().groups) add(`plant-group.${id}`, name)
  return [
    { locale: 'en', name: 'characters', content: english },
    { locale: 'es', name: 'characters', content: spanish },
  ]
}

/** All that the table of plants has words for; it takes long to read, and a start needs none of them. */
export const wordsOfTheKey: LaterWords = {
  beginnings: ['plant.', 'ask.', 'state.', 'look-alike.', 'plant-group.'],
  read: () => [...plantWords(), ...keyWords()],
}

export const sayPlant = (id: string): Text => say(`plant.${id}`)
export const sayQuestion = (character: string): Text => say(`ask.${character}`)
export const sayState = (character: string, state: string): Text => say(`state.${character}.${state}`)
/** Short enough for a button that also carries its number. */
export const sayShort = (character: string, state: string): Text =>
  say(`identify.short.${character}.${state}`)
/** What a character is about: "youngest leaf". */
export const sayPart = (character: string): Text => say(`identify.part.${character}`)

/** An answer as a person reads it back: "youngest leaf: folded in two". */
export function sayAnswer(answer: Answer): Text {
  const part = sayPart(answer.character)
  switch (answer.kind) {
    case 'states':
      return sayStatesSeen(part, answer)
    case 'range':
      return say('identify.seen', { part, seen: sayRange(answer) })
    case 'absent':
      return say('identify.seen', { part, seen: say('identify.no-such-part') })
    case 'cant-tell':
      return say('identify.seen', { part, seen: say('identify.cant-tell') })
    default:
      return answer satisfies never
  }
}

/** Nearly all states of a character stand for "anything but": the few that are left out say it shorter. */
function sayStatesSeen(
  part: Text,
  { character, states }: { character: string; states: readonly string[] },
): Text {
  const known = plants().characters.find(({ id }) => id === character)
  const others = (known?.states ?? []).filter(({ id, neutral }) => neutral !== true && !states.includes(id))
  if (known?.kind === 'one' && states.length > 2 && states.length > others.length && others.length > 0) {
    const rest = others.map(({ id }) => id)
    return say('identify.seen-not', { part, seen: sayStates(character, rest) })
  }
  return say('identify.seen', {
    part,
    seen: {
      all: states.map((state) => sayShort(character, state)),
      ...(known?.kind === 'one' ? { join: 'or' } : {}),
    },
  })
}

/** "folded in two or rolled up". */
export function sayStates(character: string, states: readonly string[]): Text {
  return say('identify.any-of', {
    states: { all: states.map((state) => sayShort(character, state)), join: 'or' },
  })
}

/** What the table lists for a plant in one character; null where nothing is known. */
export function sayCell(character: string, cell: Cell | undefined): Text | null {
  if (cell === undefined || cell.kind === 'blank') return null
  if (cell.kind === 'na') return say('identify.no-such-part')
  if (cell.kind === 'range') return sayRange({ character, ...cell })
  return sayStates(character, cell.states)
}

const MEASURED_IN_MM = new Set(['blade_width_mm', 'ligule_mm'])

function sayRange({ character, from, to }: { character: string; from: number; to: number }): Text {
  const unit = MEASURED_IN_MM.has(character) ? 'mm' : 'count'
  return say(from === to ? `identify.figure-${unit}` : `identify.span-${unit}`, { from, to })
}
