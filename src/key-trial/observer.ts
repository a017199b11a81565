import type { Cell, Character, State } from '#src/key/schema.ts'
import type { Answer } from '#src/key/walk.ts'
import { pick } from './random.ts'

/** A simulated crew member: how often wrong, how often "can't tell", and whether heads and flowers are there. */
export type Observer = {
  readonly errors: number
  readonly cantTell: number
  readonly seedHeads: boolean
  readonly random: () => number
}

/** How often a part that the plant does not have is called missing; else any state is named, or nothing. */
const CALLED_MISSING = 0.7
/** Share of mistakes that go to a state that looks alike. */
const TO_ALIKE = 0.75
/** How often a hallmark that is there is noticed. */
const NOTICED = 0.6

/** What this observer answers about one character of a plant with this cell; `mates` stand in for a blank cell. */
export function observe(
  character: Character,
  cell: Cell,
  mates: readonly Cell[],
  observer: Observer,
): Answer {
  const { random } = observer
  const cantTell: Answer = { kind: 'cant-tell', character: character.id }
  if (random() < observer.cantTell) return cantTell
  const partMissing = character.part !== undefined && (!observer.seedHeads || cell.kind === 'na')
  if (partMissing) return noneSeen(character) ?? cantTell
  if (character.kind === 'hallmark') return observeHallmark(character, cell, observer)
  const real = cell.kind === 'blank' ? pick(mates, random) : cell
  if (real === undefined) return cantTell
  const states = character.states.filter((state) => state.neutral !== true)
  if (real.kind === 'na') return observeMissing(character, states, random)
  const truth = trueState(character, states, real, random)
  if (truth === undefined) return cantTell
  const shown = random() < observer.errors ? mistake(character, states, truth, random) : truth
  return { kind: 'states', character: character.id, states: [shown.id] }
}

function noneSeen(character: Character): Answer | undefined {
  const none = character.states.find((state) => state.neutral === true)
  return none && { kind: 'states', character: character.id, states: [none.id] }
}

function observeHallmark(character: Character, cell: Cell, observer: Observer): Answer {
  const { random } = observer
  const none: Answer = { kind: 'states', character: character.id, states: ['none-of-these'] }
  const visible = character.states.filter(
    (state) => state.neutral !== true && (observer.seedHeads || state.needsHead !== true),
  )
  if (random() < observer.errors / 2) {
    const wrong = pick(visible, random)
    return wrong === undefined ? none : { kind: 'states', character: character.id, states: [wrong.id] }
  }
  const own = cell.kind === 'states' ? visible.filter((state) => cell.states.includes(state.id)) : []
  const seen = pick(own, random)
  if (seen === undefined || random() > NOTICED) return none
  return { kind: 'states', character: character.id, states: [seen.id] }
}

function observeMissing(character: Character, states: readonly State[], random: () => number): Answer {
  if (random() < CALLED_MISSING) return { kind: 'absent', character: character.id }
  const guess = random() < 0.5 ? pick(states, random) : undefined
  return guess === undefined
    ? { kind: 'cant-tell', character: character.id }
    : { kind: 'states', character: character.id, states: [guess.id] }
}

function trueState(
  character: Character,
  states: readonly State[],
  cell: Cell,
  random: () => number,
): State | undefined {
  if (cell.kind === 'states')
    return pick(
      states.filter((state) => cell.states.includes(state.id)),
      random,
    )
  if (cell.kind !== 'range') return undefined
  const whole =
    Number.isInteger(states[0]?.from) && (character.kind === 'month' || character.id === 'branches')
  const value = whole
    ? Math.round(cell.from + random() * (cell.to - cell.from))
    : cell.from + random() * (cell.to - cell.from)
  return states.find((state) => value <= (state.to ?? 0)) ?? states.at(-1)
}

function mistake(character: Character, states: readonly State[], truth: State, random: () => number): State {
  const alike =
    character.grid === undefined
      ? states.filter((state) => truth.alike?.includes(state.id) === true)
      : neighbours(states, truth)
  const near = alike.length > 0 && random() < TO_ALIKE ? pick(alike, random) : undefined
  return (
    near ??
    pick(
      states.filter((state) => state !== truth),
      random,
    ) ??
    truth
  )
}

function neighbours(states: readonly State[], truth: State): State[] {
  const at = states.indexOf(truth)
  return [states[at - 1], states[at + 1]].filter((state) => state !== undefined)
}
