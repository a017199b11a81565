import { z } from 'zod'
import { readCell } from './cell.ts'
import { withCrewWords } from './crewWords.ts'
import { parseCsv } from './csv.ts'
import {
  Character,
  CommonWeeds,
  Group,
  type KeyData,
  LookAlike,
  Source,
  type Taxon,
  TaxonRow,
} from './schema.ts'

/** The texts of the data files, each with the name that its errors are reported under. */
export type KeyFile = { readonly name: string; readonly text: string }
export type KeyFiles = {
  readonly taxa: KeyFile
  readonly characters: readonly KeyFile[]
  /** How crews say what they see, a file for each language. */
  readonly crewWords: readonly KeyFile[]
  readonly groups: KeyFile
  readonly lookAlikes: KeyFile
  readonly commonWeeds: KeyFile
  readonly sources: KeyFile
}

/** What is wrong in a data file: where it is and what would be right. */
export type KeyProblem = {
  readonly file: string
  readonly taxon?: string
  readonly cell?: string
  readonly message: string
}

export type KeyResult =
  | { readonly ok: true; readonly value: KeyData }
  | { readonly ok: false; readonly error: readonly KeyProblem[] }

/** Reads and cross-checks the data files; every problem found is returned, not only the first. */
export function parseKey(files: KeyFiles): KeyResult {
  const problems: KeyProblem[] = []
  const written = files.characters.flatMap((file) => parseList(file, Character, problems))
  const characters = withCrewWords(written, files.crewWords, problems)
  const groups = parseList(files.groups, Group, problems)
  const lookAlikes = parseList(files.lookAlikes, LookAlike, problems)
  const sources = parseList(files.sources, Source, problems)
  problems.push(...checkCharacters(files, characters))
  const taxa = parseTaxa(files.taxa, characters, sources, problems)
  const commonWeeds = parseJson(files.commonWeeds, CommonWeeds, problems)?.taxa ?? []
  const key = { characters, taxa, groups, lookAlikes, commonWeeds, sources }
  problems.push(...checkLinks(files, key))
  return problems.length === 0 ? { ok: true, value: key } : { ok: false, error: problems }
}

/** Reads the data files; throws one error that lists every problem by file, plant and cell. */
export function loadKey(files: KeyFiles): KeyData {
  const result = parseKey(files)
  if (result.ok) return result.value
  throw new Error(`Cannot load the key:\n${result.error.map(problemText).join('\n')}`)
}

/** One line for a person who edits the data. */
export function problemText(problem: KeyProblem): string {
  const place = [
    problem.file,
    problem.taxon && `taxon ${problem.taxon}`,
    problem.cell && `cell ${problem.cell}`,
  ]
  return `${place.filter(Boolean).join(', ')}: ${problem.message}`
}

function parseList<T>(file: KeyFile, schema: z.ZodType<T>, problems: KeyProblem[]): T[] {
  return parseJson(file, z.array(schema), problems) ?? []
}

export function parseJson<T>(file: KeyFile, schema: z.ZodType<T>, problems: KeyProblem[]): T | undefined {
  let json: unknown
  try {
    json = JSON.parse(file.text)
  } catch (error) {
    problems.push({ file: file.name, message: `not readable as JSON: ${(error as Error).message}` })
    return undefined
  }
  const parsed = schema.safeParse(json)
  if (parsed.success) return parsed.data
  for (const issue of parsed.error.issues) {
    problems.push({ file: file.name, cell: issue.path.join('.'), message: issue.message })
  }
  return undefined
}

function checkCharacters(files: KeyFiles, characters: readonly Character[]): KeyProblem[] {
  const problems: KeyProblem[] = []
  const file = files.characters.map((one) => one.name).join(' or ')
  for (const id of repeated(characters.map((one) => one.id))) {
    problems.push({ file, cell: id, message: 'this character is there twice' })
  }
  for (const character of characters) {
    const ids = new Set(character.states.map((state) => state.id))
    for (const id of repeated(character.states.map((state) => state.id))) {
      problems.push({ file, cell: `${character.id}.${id}`, message: 'this state is there twice' })
    }
    const isNumber = character.kind === 'range' || character.kind === 'month'
    if (isNumber && character.grid === undefined) {
      problems.push({ file, cell: character.id, message: 'a character in numbers needs a grid' })
    }
    for (const state of character.states) {
      for (const other of state.alike ?? []) {
        if (!ids.has(other)) {
          problems.push({
            file,
            cell: `${character.id}.${state.id}`,
            message: `alike to "${other}", unknown`,
          })
        }
      }
      if (isNumber && (state.from === undefined || state.to === undefined)) {
        problems.push({ file, cell: `${character.id}.${state.id}`, message: 'needs from and to' })
      }
    }
  }
  return problems
}

function parseTaxa(
  file: KeyFile,
  characters: readonly Character[],
  sources: readonly Source[],
  problems: KeyProblem[],
): Taxon[] {
  let rows: Record<string, string>[]
  try {
    rows = parseCsv(file.text, file.name)
  } catch (error) {
    problems.push({ file: file.name, message: (error as Error).message })
    return []
  }
  const columns = new Set(Object.keys(rows[0] ?? {}))
  const known = new Set([...Object.keys(TaxonRow.shape), ...characters.map((one) => one.id)])
  for (const column of known) {
    if (!columns.has(column))
      problems.push({ file: file.name, cell: column, message: 'this column is missing' })
  }
  for (const column of columns) {
    if (!known.has(column)) problems.push({ file: file.name, cell: column, message: 'no such character' })
  }
  const sourceIds = new Set(sources.map((one) => one.id))
  for (const id of repeated(rows.map((row) => row.id ?? ''))) {
    problems.push({ file: file.name, taxon: id, cell: 'id', message: 'this plant is there twice' })
  }
  return rows.flatMap((row) => parseTaxon(row, file.name, { characters, sourceIds }, problems))
}

type RowContext = { readonly characters: readonly Character[]; readonly sourceIds: ReadonlySet<string> }

function parseTaxon(
  row: Record<string, string>,
  file: string,
  context: RowContext,
  problems: KeyProblem[],
): Taxon[] {
  const fixed = TaxonRow.safeParse(row)
  const taxon = row.id ?? '(no id)'
  if (!fixed.success) {
    for (const issue of fixed.error.issues) {
      problems.push({ file, taxon, cell: issue.path.join('.'), message: issue.message })
    }
    return []
  }
  const data = fixed.data
  const report = (cell: string, message: string) => problems.push({ file, taxon, cell, message })
  const memory = new Set(splitList(data.memory_cells, '|'))
  const own = readCellSources(data.cell_sources, report)
  const rowSources = splitList(data.sources, '|')
  for (const id of memory) {
    if (!context.characters.some((one) => one.id === id)) report('memory_cells', `no character "${id}"`)
  }
  for (const id of [...rowSources, ...[...own.values()].flat()]) {
    if (!context.sourceIds.has(id)) report('sources', `no source "${id}" in the list of sources`)
  }
  const cells = Object.fromEntries(
    context.characters.map((character) => {
      const provenance = {
        memory: memory.has(character.id),
        sources: own.get(character.id) ?? (memory.has(character.id) ? [] : rowSources),
      }
      const cell = readCell(row[character.id] ?? '', character, provenance)
      if (cell.ok) return [character.id, cell.value]
      report(character.id, cell.error)
      return [character.id, { kind: 'blank' as const }]
    }),
  )
  return [
    {
      id: data.id,
      names: data.es_name === '' ? { en: data.common_name } : { en: data.common_name, es: data.es_name },
      otherNames: splitList(data.other_names, ';'),
      spanishNames: [...splitList(data.es_name, ';'), ...splitList(data.es_other, ';')],
      spanishSource: data.es_source,
      scientificName: data.scientific_name,
      role: data.role,
      turfWhere: data.turf_where,
      cells,
    },
  ]
}

function readCellSources(
  text: string,
  report: (cell: string, message: string) => void,
): Map<string, string[]> {
  const found = new Map<string, string[]>()
  for (const part of splitList(text, ';')) {
    const [character, list] = part.split('=')
    if (character === undefined || list === undefined)
      report('cell_sources', `"${part}" is not character=SOURCE`)
    else found.set(character.trim(), splitList(list, '+'))
  }
  return found
}

function checkLinks(files: KeyFiles, key: KeyData): KeyProblem[] {
  const problems: KeyProblem[] = []
  const taxa = new Set(key.taxa.map((one) => one.id))
  const characters = new Set(key.characters.map((one) => one.id))
  const plantGroups = new Set(
    key.characters.find((one) => one.id === 'group')?.states.map((state) => `@${state.id}`),
  )
  for (const group of key.groups) {
    for (const member of group.members) {
      if (!taxa.has(member)) {
        problems.push({ file: files.groups.name, cell: group.id, message: `no plant "${member}"` })
      }
    }
  }
  for (const id of key.commonWeeds) {
    if (!taxa.has(id)) problems.push({ file: files.commonWeeds.name, message: `no plant "${id}"` })
  }
  for (const pair of key.lookAlikes) {
    const file = files.lookAlikes.name
    for (const id of pair.sides.flat()) {
      if (!taxa.has(id) && !plantGroups.has(id)) {
        problems.push({ file, cell: `${pair.n}`, message: `no plant "${id}"` })
      }
    }
    for (const id of pair.tells) {
      if (!characters.has(id)) problems.push({ file, cell: `${pair.n}`, message: `no character "${id}"` })
    }
  }
  return problems
}

function splitList(text: string, mark: string): string[] {
  return text
    .split(mark)
    .map((part) => part.trim())
    .filter((part) => part !== '')
}

function repeated(ids: readonly string[]): string[] {
  return [...new Set(ids.filter((id, index) => ids.indexOf(id) !== index))]
}
