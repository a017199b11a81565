import { field, refill, textOf } from '#src/conversation/fields.ts'
import type { Form } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { quantityTrouble } from '#src/conversation/trouble.ts'
import type { FieldValue } from '#src/desk/command.ts'
import { plantName, taxonByName } from '#src/plants.ts'
import { decimalText } from '#src/quantity/big.ts'
import { parseQuantity } from '#src/quantity/parse.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { type Area, AreaDetails } from '#src/store/sites.ts'
import { readDay } from './read-day.ts'

type Fields = Readonly<Record<string, FieldValue>>

export interface AreaDraft {
  readonly name: string
  readonly squareFeet: string
  readonly details: AreaDetails
}

const LONGEST_NAME = 60

/** Second step: how large it is and which grasses grow there. */
export function areaForm(typed: Fields = {}, step = 'area', value: null | number = null): Form {
  const fields = [
    field('area.form', 'name', { required: true, hint: true, maxLength: LONGEST_NAME }),
    field('area.form', 'size', { required: true, hint: true, maxLength: 60 }),
    field('area.form', 'turfs', { hint: true, maxLength: 200 }),
    field('area.form', 'use', { hint: true, maxLength: LONGEST_NAME }),
    field('area.form', 'seeded', { hint: true, maxLength: 40 }),
  ]
  return {
    title: say('area.form.title'),
    open: say('common.fill-in'),
    fields: refill(fields, typed),
    to: value === null ? { step } : { step, value },
  }
}

/** What is known of an area, as its form shows it. */
export function areaValues(area: Area): Fields {
  return {
    name: area.name,
    size: `${area.squareFeet} ft2`,
    turfs: area.details.turfs.map((id) => plantName(id, 'en')).join(', '),
    use: area.details.use,
    seeded: area.details.seededOn ?? area.details.soddedOn ?? '',
  }
}

export type ReadArea =
  | { readonly ok: true; readonly draft: AreaDraft }
  | { readonly ok: false; readonly problems: readonly Text[] }

/** The largest area that one entry may hold: bigger than any park a crew of four mows. */
const LARGEST = { value: '1000', unit: 'acre' } as const

export function readAreaForm(
  fields: Fields,
  namesTaken: ReadonlySet<string>,
  { locale, today }: { readonly locale: 'en' | 'es'; readonly today: string },
): ReadArea {
  const name = textOf(fields, 'name')
  const problems: Text[] = []
  if (name === '') problems.push(say('area.problem.no-name'))
  if (namesTaken.has(name.toLowerCase())) problems.push(say('area.problem.name-taken', { name }))
  const size = parseQuantity(textOf(fields, 'size'), {
    expect: 'area',
    bareUnit: 'ft2',
    limit: LARGEST,
    locale,
  })
  if (!size.ok) problems.push(quantityTrouble(size.error))
  const turfs = readTurfs(textOf(fields, 'turfs'))
  for (const unknown of turfs.unknown) problems.push(say('area.problem.turf', { name: unknown }))
  const seeded = textOf(fields, 'seeded')
  const seededOn = seeded === '' ? null : readDay(seeded, today)
  if (seeded !== '' && seededOn === null) problems.push(say('area.problem.day', { text: seeded }))
  if (!size.ok || problems.length > 0) return { ok: false, problems }
  return {
    ok: true,
    draft: {
      name,
      squareFeet: decimalText(amountIn(size.value, 'ft2')),
      details: AreaDetails.parse({ turfs: turfs.ids, use: textOf(fields, 'use'), seededOn }),
    },
  }
}

/** Grasses by any name that crews use, parted by commas. */
export function readTurfs(text: string): { readonly ids: string[]; readonly unknown: string[] } {
  const ids: string[] = []
  const unknown: string[] = []
  for (const name of text.split(/\s*[,;+/]\s*|\s+(?:and|y|with|con)\s+/i)) {
    if (name.trim() === '' || /^(unknown|don'?t know|no s[eé]|desconocido|\?)$/i.test(name.trim())) continue
    const taxon = taxonByName(name)
    if (taxon === undefined) unknown.push(name.trim())
    else if (!ids.includes(taxon.id)) ids.push(taxon.id)
  }
  return { ids, unknown }
}
