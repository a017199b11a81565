import { textOf } from '#src/conversation/fields.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { taxonByName } from '#src/plants.ts'
import { readDay } from '#src/site/read-day.ts'
import type { Fields } from './entry-forms.ts'

/** One part of an entry as plain JSON, or what could not be read of it. The schema of entries has the last word. */
export type ReadPart =
  | { readonly ok: true; readonly part: Readonly<Record<string, unknown>> }
  | { readonly ok: false; readonly problems: readonly Text[] }

const DRY = new Set(['WP', 'WDG', 'WG', 'DF', 'SP', 'SG', 'WSP', 'G'])

const listOf = (text: string, parter = /\s*[;\n]\s*/) => text.split(parter).filter((one) => one !== '')

export function readProduct(fields: Fields): ReadPart {
  const formulation = textOf(fields, 'formulation').toUpperCase()
  const registration = textOf(fields, 'registration')
  const problems: Text[] = []
  const actives = listOf(textOf(fields, 'actives')).flatMap((text) => {
    const active = readActive(text)
    if (active === null) problems.push(say('book.problem.active', { text }))
    return active === null ? [] : [active]
  })
  if (problems.length > 0) return { ok: false, problems }
  return {
    ok: true,
    part: {
      name: textOf(fields, 'name'),
      form: DRY.has(formulation) ? 'dry' : 'liquid',
      formulation,
      registration: /^(25\(?b\)?|exempt|exento)/i.test(registration)
        ? { exempt25b: true }
        : { number: registration },
      actives,
      restricted: false,
      signalWord: textOf(fields, 'signal'),
    },
  }
}

/** `Quellidone 75 % ai, group 2`: a name, what the product holds of it, and its mode-of-action group. */
function readActive(text: string): Record<string, string> | null {
  const found = /^(.+?)\s+(\d[\d.,]*\s*(?:%|lb|g|kg|oz)[^,]*?)(?:\s*,\s*(?:group|grupo)\s+(\S+))?$/i.exec(
    text.trim(),
  )
  if (found?.[1] === undefined || found[2] === undefined) return null
  const strength = /ai|ae/i.test(found[2])
    ? found[2]
    : found[2].replace(/%|(lb|kg|oz|g)(?=\/)/i, (unit) => `${unit} ai`)
  return { name: found[1], strength, ...(found[3] === undefined ? {} : { group: found[3] }) }
}

export function readRateLine(fields: Fields, taken: readonly string[]): ReadPart {
  const problems: Text[] = []
  const turfs = listOf(textOf(fields, 'turfs'), /\s*[,;\n]\s*/).flatMap((words) => {
    const taxon = taxonByName(words)
    if (taxon === undefined) problems.push(say('area.problem.turf', { name: words }))
    return taxon === undefined ? [] : [{ words, taxa: [taxon.id] }]
  })
  const weeds = listOf(textOf(fields, 'weeds'), /\s*[,;\n]\s*/).map((words) => {
    const taxon = taxonByName(words)
    return taxon === undefined ? { words } : { words, taxa: [taxon.id] }
  })
  if (problems.length > 0) return { ok: false, problems }
  return {
    ok: true,
    part: {
      line: {
        id: freeId(taken),
        line: textOf(fields, 'line'),
        turfs,
        ...(weeds.length === 0 ? {} : { weeds }),
        treatment: 'any',
        rates: listOf(textOf(fields, 'rates')).map(readSpan),
      },
      limits: readLimits(textOf(fields, 'limits')),
    },
  }
}

function freeId(taken: readonly string[]): string {
  let number = taken.length + 1
  while (taken.includes(`line-${number}`)) number++
  return `line-${number}`
}

/** `0.25 to 0.37 fl oz/1000 ft2`: the lower end gets the unit that stands behind the upper one. */
export function readSpan(text: string): Record<string, string> {
  const found = /^(\d[\d.,/ ]*?)\s*(?:to|-|–|a|hasta)\s*(\d[\d.,/ ]*?)\s*([%a-z].*)$/i.exec(text)
  if (found?.[1] === undefined) return { high: text }
  return { low: `${found[1]} ${found[3]}`, high: `${found[2]} ${found[3]}` }
}

/** `0.2 oz wt/1000 ft2 a year; 28 days; 2 treatments`: each in the label's own figures. */
/** `through the soil`, `by leaf and root`, `por la hoja`: where the label says that it gets in. */
function readWay(piece: string): 'leaf' | 'soil' | 'both' | undefined {
  if (/\d/.test(piece)) return undefined
  const leaf = /\b(?:leaf|leaves|foliar|foliage|hojas?)\b/i.test(piece)
  const soil = /\b(?:soil|roots?|suelo|tierra|ra[ií]z|ra[ií]ces)\b/i.test(piece)
  if (leaf && soil) return 'both'
  return leaf ? 'leaf' : soil ? 'soil' : undefined
}

function readLimits(text: string): Record<string, unknown> {
  const limits: Record<string, unknown> = {}
  const add = (name: string, limit: Record<string, unknown>) => {
    const known = limits[name]
    limits[name] = [...(Array.isArray(known) ? known : []), limit]
  }
  for (const piece of listOf(text, /\s*[;,\n]\s*/)) {
    const way = readWay(piece)
    if (way !== undefined) {
      limits.worksThrough = { way, line: piece }
      continue
    }
    const days = /(\d+)\s*(?:days?|d[ií]as?)/i.exec(piece)
    const times = /(\d+)\s*(?:treatments?|applications?|times|aplicaciones|veces)/i.exec(piece)
    const period = /rolling|12 months|12 meses/i.test(piece) ? 'rolling' : 'calendar'
    if (days?.[1] !== undefined) add('interval', { days: Number(days[1]), counts: 'product', line: piece })
    else if (times?.[1] !== undefined)
      add('treatments', { most: Number(times[1]), period, counts: 'product', line: piece })
    else {
      const rate = piece
        .replace(
          /\b(at most|max(imum)?\.?|per year|a year|\/\s*year|al año|por año|rolling|calendar)\b/gi,
          '',
        )
        .trim()
      add('perYear', { rates: [rate], period, counts: 'product', line: piece })
    }
  }
  return limits
}

export function readSafety(fields: Fields, today: string): ReadPart {
  const label = /^(.*?)[\s,]+(\d{4}-\d{1,2}-\d{1,2}|\d{1,2}\/\d{1,2}\/\d{4})$/.exec(textOf(fields, 'label'))
  const date = label?.[2] === undefined ? null : readDay(label[2], today)
  if (label?.[1] === undefined || date === null)
    return { ok: false, problems: [say('book.problem.label', { text: textOf(fields, 'label') })] }
  const keepOff = textOf(fields, 'keep_off')
  const firstAid = textOf(fields, 'first_aid')
  return {
    ok: true,
    part: {
      label: { version: label[1], date },
      safety: {
        mixing: listOf(textOf(fields, 'mixing'), /\s*[,;\n]\s*/),
        spraying: listOf(textOf(fields, 'spraying'), /\s*[,;\n]\s*/),
        ...(keepOff === '' ? {} : { keepOff }),
        ...(firstAid === '' ? {} : { firstAid: [{ after: 'any', words: firstAid }] }),
      },
    },
  }
}
