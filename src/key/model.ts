import { errorRate } from './errorRate.ts'
import { spanCells, spanChances } from './numbers.ts'
import { changeRate, relativeChances, relativesOf } from './relatives.ts'
import type { Cell, Character, KeyData, Taxon } from './schema.ts'
import type { Settings } from './settings.ts'
import { unsplitPairs } from './unsplit.ts'

/** An alternative that a question offers: a state, a class of numbers, or "it has no such part". */
export type Outcome = {
  readonly id: string
  readonly cells: readonly { readonly cell: number; readonly part: number }[]
}

/**
 * One character with the chance of each of its cells for each plant.
 * `chances[taxon * cells + cell]`; `novel` the same for a relative of that plant that is not in the data.
 */
export type CompiledCharacter = {
  readonly character: Character
  readonly cells: number
  readonly cellOf: ReadonlyMap<string, number>
  readonly absentCell: number
  readonly outcomes: readonly Outcome[]
  readonly chances: Float64Array
  readonly novel: Float64Array
  /** Chances by offered alternative: `offered[taxon * outcomes + outcome]`. */
  readonly offered: Float64Array
  readonly offeredNovel: Float64Array
  /** Chances for a plant of the same plant group of which nothing is known. */
  readonly general: Float64Array
}

type Draft = Omit<CompiledCharacter, 'novel' | 'offeredNovel'>

export type Model = {
  readonly key: KeyData
  readonly settings: Settings
  readonly characters: readonly CompiledCharacter[]
  readonly characterOf: ReadonlyMap<string, CompiledCharacter>
  readonly indexOf: ReadonlyMap<string, number>
  /** For each turf the plants that the plain look of mown turf does not tell from it. */
  readonly unsplit: ReadonlyMap<number, ReadonlySet<number>>
}

const models = new WeakMap<KeyData, WeakMap<Settings, Model>>()

/** The key's table as chances. Kept per key and settings, since a walk asks for it at every step. */
export function modelOf(key: KeyData, settings: Settings): Model {
  const bySettings = models.get(key) ?? new WeakMap<Settings, Model>()
  models.set(key, bySettings)
  const known = bySettings.get(settings)
  if (known !== undefined) return known
  const model = compile(key, settings)
  bySettings.set(settings, model)
  return model
}

function compile(key: KeyData, settings: Settings): Model {
  const drafts = key.characters.map((character) => draftCharacter(character, key.taxa, settings))
  const mates = matesOf(key)
  const relatives = relativesOf(drafts, key.taxa.length, (one, other) => mates[one]?.has(other) === true)
  const characters = drafts.map((draft) => withNovel(draft, relatives, settings))
  return {
    key,
    settings,
    characters,
    characterOf: new Map(characters.map((one) => [one.character.id, one])),
    indexOf: new Map(key.taxa.map((taxon, index) => [taxon.id, index])),
    unsplit: unsplitPairs(key),
  }
}

function draftCharacter(character: Character, taxa: readonly Taxon[], settings: Settings): Draft {
  const layout = layoutOf(character)
  const { cells } = layout
  const count = taxa.length
  const known = taxa.map((taxon) => knownChances(taxon.cells[character.id], character, layout, settings))
  const general = generalChances(taxa, known, cells)
  const chances = new Float64Array(count * cells)
  const generals = new Float64Array(count * cells)
  taxa.forEach((taxon, index) => {
    const cell = taxon.cells[character.id] ?? { kind: 'blank' }
    const mean = general(taxon)
    const row = rowChances({ cell, known: known[index], mean, character, layout, settings })
    generals.set(mean, index * cells)
    chances.set(row, index * cells)
  })
  keepListedFirst(taxa, character, layout, chances)
  return {
    character,
    cells,
    cellOf: layout.cellOf,
    absentCell: layout.absentCell,
    outcomes: layout.outcomes,
    chances,
    offered: byOutcome(chances, { outcomes: layout.outcomes, cells, count }),
    general: generals,
  }
}

/**
 * Adds the chances of a relative of each plant that is not in the data: like the plant, but changed to what its
 * relatives show in as many cases as plants of the data differ from their nearest relative in this character.
 */
function withNovel(
  draft: Draft,
  relatives: readonly (readonly number[])[],
  settings: Settings,
): CompiledCharacter {
  const { cells, chances, outcomes } = draft
  const novel = new Float64Array(chances.length)
  const change = Math.min(0.9, settings.noveltyChange * changeRate(draft, relatives))
  relatives.forEach((list, taxon) => {
    const other = relativeChances(draft, list)
    for (let cell = 0; cell < cells; cell++) {
      const own = chances[taxon * cells + cell] ?? 0
      novel[taxon * cells + cell] = (1 - change) * own + change * (other[cell] ?? 0)
    }
  })
  return { ...draft, novel, offeredNovel: byOutcome(novel, { outcomes, cells, count: relatives.length }) }
}

/** The other members of the groups of each plant: what is treated alike is no relative to be told from it. */
function matesOf(key: KeyData): Set<number>[] {
  const indexOf = new Map(key.taxa.map((taxon, index) => [taxon.id, index]))
  return key.taxa.map((taxon) => {
    const groups = key.groups.filter((group) => group.members.includes(taxon.id))
    return new Set(groups.flatMap((group) => group.members.flatMap((id) => indexOf.get(id) ?? [])))
  })
}

type Layout = {
  readonly cells: number
  readonly cellOf: ReadonlyMap<string, number>
  readonly absentCell: number
  readonly extraAbsent: boolean
  readonly outcomes: readonly Outcome[]
}

function layoutOf(character: Character): Layout {
  if (character.grid !== undefined) {
    const { grid } = character
    const cells = grid.length
    const absentCell = cells - 1
    const outcomes = character.states.map((state) => ({
      id: state.id,
      cells: spanCells({ from: state.from ?? 0, to: state.to ?? 0 }, grid),
    }))
    const absent = { id: 'absent', cells: [{ cell: absentCell, part: 1 }] }
    return { cells, cellOf: new Map(), absentCell, extraAbsent: true, outcomes: [...outcomes, absent] }
  }
  const states = character.states.filter((state) => state.neutral !== true)
  const cellOf = new Map(states.map((state, cell) => [state.id, cell]))
  const absence = states.find((state) => state.absence === true)
  const extraAbsent = absence === undefined
  const absentCell = absence === undefined ? states.length : (cellOf.get(absence.id) ?? 0)
  const outcomes: Outcome[] = states.map((state, cell) => ({ id: state.id, cells: [{ cell, part: 1 }] }))
  if (extraAbsent) outcomes.push({ id: 'absent', cells: [{ cell: absentCell, part: 1 }] })
  return { cells: states.length + (extraAbsent ? 1 : 0), cellOf, absentCell, extraAbsent, outcomes }
}

/** How often a hallmark is seen on a plant that has it, and "seen" on one that lacks it. */
const HALLMARK = { has: 0.5, lacks: 0.01 } as const
/** How often a part that is there is reported as missing. */
const OVERLOOKED = 0.02

function knownChances(
  cell: Cell | undefined,
  character: Character,
  layout: Layout,
  settings: Settings,
): Float64Array | undefined {
  if (cell === undefined || cell.kind === 'na') return undefined
  if (character.kind === 'hallmark') return hallmarkChances(cell, layout)
  if (cell.kind === 'blank') return undefined
  const row = new Float64Array(layout.cells)
  const mistakes = errorRate(character)
  if (cell.kind === 'range') row.set(spanChances(cell, character.grid ?? [0, 1], mistakes))
  else row.set(stateChances(cell.states, character, layout, { mistakes, near: settings.nearMistakes }))
  if (layout.extraAbsent) {
    row.forEach((value, at) => {
      row[at] = value * (1 - OVERLOOKED)
    })
    row[layout.absentCell] = OVERLOOKED
  }
  return row
}

function hallmarkChances(cell: Cell, layout: Layout): Float64Array {
  const row = new Float64Array(layout.cells).fill(HALLMARK.lacks)
  for (const state of cell.kind === 'states' ? cell.states : []) {
    row[layout.cellOf.get(state) ?? 0] = HALLMARK.has
  }
  return row
}

function stateChances(
  listed: readonly string[],
  character: Character,
  layout: Layout,
  error: { readonly mistakes: number; readonly near: number },
): Float64Array {
  const row = new Float64Array(layout.cells)
  const states = character.states.filter((state) => state.neutral !== true)
  const own = states.filter((state) => listed.includes(state.id))
  for (const state of own) {
    const at = layout.cellOf.get(state.id) ?? 0
    const alike = state.alike ?? []
    const near = alike.length > 0 ? error.near : 0
    const share = 1 / own.length
    row[at] = (row[at] ?? 0) + share * (1 - error.mistakes)
    for (const other of states) {
      if (other === state) continue
      const cell = layout.cellOf.get(other.id) ?? 0
      const toNear = alike.includes(other.id) ? near / alike.length : 0
      const toAny = (1 - near) / (states.length - 1)
      row[cell] = (row[cell] ?? 0) + share * error.mistakes * (toNear + toAny)
    }
  }
  return row
}

/** What a plant of this plant group shows on average: the neutral stand-in for what is not known. */
function generalChances(
  taxa: readonly Taxon[],
  known: readonly (Float64Array | undefined)[],
  cells: number,
): (taxon: Taxon) => Float64Array {
  const groups = new Map<string, Float64Array>()
  const all = meanOf(known, cells)
  for (const group of new Set(taxa.map(plantGroup))) {
    const rows = known.filter((_, index) => {
      const taxon = taxa[index]
      return taxon !== undefined && plantGroup(taxon) === group
    })
    const filled = rows.filter((row) => row !== undefined)
    groups.set(group, filled.length >= 3 ? blend(meanOf(rows, cells), all) : all)
  }
  return (taxon) => groups.get(plantGroup(taxon)) ?? all
}

function blend(mostly: Float64Array, partly: Float64Array): Float64Array {
  return mostly.map((value, at) => 0.9 * value + 0.1 * (partly[at] ?? 0))
}

function meanOf(rows: readonly (Float64Array | undefined)[], cells: number): Float64Array {
  const sum = new Float64Array(cells)
  let count = 0
  for (const row of rows) {
    if (row === undefined) continue
    count++
    row.forEach((value, at) => {
      sum[at] = (sum[at] ?? 0) + value
    })
  }
  return count === 0 ? sum.fill(1 / cells) : sum.map((value) => value / count)
}

export function plantGroup(taxon: Taxon): string {
  const cell = taxon.cells.group
  return cell?.kind === 'states' ? (cell.states[0] ?? '') : ''
}

function rowChances(input: {
  readonly cell: Cell
  readonly known: Float64Array | undefined
  readonly mean: Float64Array
  readonly character: Character
  readonly layout: Layout
  readonly settings: Settings
}): Float64Array {
  const { cell, known, mean, character, layout, settings } = input
  if (cell.kind === 'na') {
    const row = mean.map((value) => value * (1 - settings.noSuchPart))
    row[layout.absentCell] = (row[layout.absentCell] ?? 0) + settings.noSuchPart
    return row
  }
  if (known === undefined) return mean
  const doubt =
    character.kind !== 'hallmark' && cell.kind !== 'blank' && cell.memory ? settings.memoryDoubt : 0
  return known.map((value, at) => (1 - doubt) * value + doubt * (mean[at] ?? 0))
}

/**
 * No plant that does not list a state may give it more readily than one that lists it. Without this a plant with
 * many listed states (each then less expected) could sink on an answer that only it can give.
 */
function keepListedFirst(
  taxa: readonly Taxon[],
  character: Character,
  layout: Layout,
  chances: Float64Array,
): void {
  const { cells } = layout
  for (const [state, at] of layout.cellOf) {
    const lists = taxa.map((taxon) => {
      const cell = taxon.cells[character.id]
      return cell?.kind === 'states' && cell.states.includes(state)
    })
    let least = Number.POSITIVE_INFINITY
    lists.forEach((listed, index) => {
      if (listed) least = Math.min(least, chances[index * cells + at] ?? 0)
    })
    if (!Number.isFinite(least)) continue
    lists.forEach((listed, index) => {
      const isAbsence = at === layout.absentCell && taxa[index]?.cells[character.id]?.kind === 'na'
      const slot = index * cells + at
      if (!listed && !isAbsence) chances[slot] = Math.min(chances[slot] ?? 0, least * 0.95)
    })
  }
}

function byOutcome(
  chances: Float64Array,
  shape: { readonly outcomes: readonly Outcome[]; readonly cells: number; readonly count: number },
): Float64Array {
  const { outcomes, cells, count } = shape
  const sums = new Float64Array(count * outcomes.length)
  for (let taxon = 0; taxon < count; taxon++) {
    outcomes.forEach((outcome, at) => {
      let sum = 0
      for (const { cell, part } of outcome.cells) sum += part * (chances[taxon * cells + cell] ?? 0)
      sums[taxon * outcomes.length + at] = sum
    })
  }
  return sums
}
