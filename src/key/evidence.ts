import type { CompiledCharacter, Model } from './model.ts'
import { distanceOutside, isDiscrete, SLACK_LOG, spanCells } from './numbers.ts'
import type { Cell, Character } from './schema.ts'
import type { Answer } from './walk.ts'

/** An answer that says something, on a known character; one per character. */
export type Evidence = { readonly compiled: CompiledCharacter; readonly answer: Answer }

/**
 * The answers that count. Unknown characters, "can't tell" and neutral states ("no seed head to see") drop out.
 * Several answers on one character are taken together, so that their order does not matter.
 */
export function evidenceOf(model: Model, answers: readonly Answer[]): Evidence[] {
  const byCharacter = new Map<CompiledCharacter, Answer>()
  for (const answer of answers) {
    const compiled = model.characterOf.get(answer.character)
    if (compiled === undefined) continue
    const telling = tellingPart(compiled.character, answer)
    if (telling === undefined) continue
    const former = byCharacter.get(compiled)
    byCharacter.set(compiled, former === undefined ? telling : together(former, telling))
  }
  return model.characters.flatMap((compiled) => {
    const answer = byCharacter.get(compiled)
    return answer === undefined ? [] : [{ compiled, answer }]
  })
}

function tellingPart(character: Character, answer: Answer): Answer | undefined {
  if (answer.kind === 'cant-tell') return undefined
  if (answer.kind !== 'states') return answer
  const known = new Map(character.states.map((state) => [state.id, state]))
  const states = answer.states.filter((id) => known.has(id) && known.get(id)?.neutral !== true)
  return states.length === 0 ? undefined : { ...answer, states: [...new Set(states)].sort() }
}

function together(one: Answer, other: Answer): Answer {
  if (one.kind === 'states' && other.kind === 'states') {
    return { ...one, states: [...new Set([...one.states, ...other.states])].sort() }
  }
  if (one.kind === 'range' && other.kind === 'range') {
    return { ...one, from: Math.min(one.from, other.from), to: Math.max(one.to, other.to) }
  }
  const order = ['states', 'range', 'absent', 'cant-tell']
  return order.indexOf(one.kind) <= order.indexOf(other.kind) ? one : other
}

/** Adds the log chance of this answer to `into` for every plant, times `weight`. `chances` as in the model. */
export function addLogChances(
  evidence: Evidence,
  chances: Float64Array,
  into: Float64Array,
  weight: number,
): void {
  const alternatives = cellsOfAnswer(evidence)
  for (let taxon = 0; taxon < into.length; taxon++) {
    into[taxon] = (into[taxon] ?? 0) + weight * logOf(evidence, alternatives, chances, taxon)
  }
}

/** The log chance of this answer for one plant. */
export function logChance(evidence: Evidence, chances: Float64Array, taxon: number): number {
  return logOf(evidence, cellsOfAnswer(evidence), chances, taxon)
}

function logOf(
  evidence: Evidence,
  alternatives: readonly Cells[],
  chances: Float64Array,
  taxon: number,
): number {
  const row = taxon * evidence.compiled.cells
  let log = 0
  for (const alternative of alternatives) {
    let chance = 0
    for (const { cell, part } of alternative) chance += part * (chances[row + cell] ?? 0)
    log += Math.log(Math.max(chance, 1e-9))
  }
  return log * alternatives.length ** -0.25
}

type Cells = readonly { readonly cell: number; readonly part: number }[]

/** Lists of cells; the chances in one list add up ("either"), the lists multiply ("and"). */
function cellsOfAnswer({ compiled, answer }: Evidence): Cells[] {
  if (answer.kind === 'absent') return [[{ cell: compiled.absentCell, part: 1 }]]
  if (answer.kind === 'range') return [spanCells(answer, compiled.character.grid ?? [0, 1])]
  if (answer.kind === 'cant-tell') return []
  const lists = answer.states.map(
    (id): Cells => compiled.outcomes.find((outcome) => outcome.id === id)?.cells ?? [],
  )
  return compiled.character.kind === 'many' || compiled.character.kind === 'hallmark' ? lists : [lists.flat()]
}

/** How an answer stands to a cell of the table. */
export type Fit = 'fits' | 'clash' | 'open'

/**
 * `fits`: the plant may show this. `clash`: it lists other states, with slack for numbers. `open`: not known.
 * A hallmark that a plant lacks is a clash only in the sense that something else has it.
 */
export function fitOf({ compiled, answer }: Evidence, cell: Cell | undefined): Fit {
  const { character } = compiled
  if (cell === undefined || cell.kind === 'blank') return character.kind === 'hallmark' ? 'clash' : 'open'
  if (answer.kind === 'absent') {
    if (cell.kind === 'na') return 'fits'
    const absence = character.states.find((state) => state.absence === true)?.id
    if (cell.kind !== 'states' || absence === undefined) return 'clash'
    return cell.states.includes(absence) ? 'fits' : 'clash'
  }
  if (cell.kind === 'na') return 'clash'
  if (cell.kind === 'range') return rangeFits(answer, cell, character) ? 'fits' : 'clash'
  if (answer.kind !== 'states') return 'open'
  const listed = answer.states.filter((state) => cell.states.includes(state))
  if (character.kind === 'many') return listed.length * 2 >= answer.states.length ? 'fits' : 'clash'
  return listed.length > 0 ? 'fits' : 'clash'
}

function rangeFits(
  answer: Answer,
  cell: { readonly from: number; readonly to: number },
  character: Character,
): boolean {
  const spans =
    answer.kind === 'range'
      ? [answer]
      : character.states
          .filter((state) => answer.kind === 'states' && answer.states.includes(state.id))
          .map((state) => ({ from: state.from ?? 0, to: state.to ?? 0 }))
  if (isDiscrete(character.grid ?? [])) {
    return spans.some((span) => span.to >= cell.from - 1 && span.from <= cell.to + 1)
  }
  return spans.some(
    (span) =>
      (span.from <= cell.to && span.to >= cell.from) ||
      Math.min(distanceOutside(span.from, cell), distanceOutside(span.to, cell)) <= SLACK_LOG,
  )
}

/**
 * A clash on a decisive state: one that is not taken for any state of this plant by mistake, on a cell that was
 * looked up. One of these rules a plant out by itself.
 */
export function isDecisive(evidence: Evidence, cell: Cell | undefined): boolean {
  const { answer, compiled } = evidence
  if (fitOf(evidence, cell) !== 'clash' || answer.kind !== 'states' || cell === undefined) return false
  const states = compiled.character.states.filter((state) => answer.states.includes(state.id))
  if (!states.every((state) => state.decisive === true)) return false
  if (cell.kind === 'na') return true
  if (cell.kind !== 'states' || cell.memory) return false
  return states.every((state) => !cell.states.some((own) => state.alike?.includes(own) === true))
}
