import { peopleOf } from './people.ts'
import { redactWords } from './redact.ts'
import { rowsOf } from './rows.ts'
import { schemaAt } from './schema-at.ts'
import { SiteDetails, sitesOf } from './sites.ts'
import type { Transaction } from './transaction.ts'

/** A row in which somebody's name, or any other words, stand. */
export interface Mention {
  readonly table: string
  readonly id: number
  /** Columns that hold the words, and what stands in each. */
  readonly columns: readonly { readonly name: string; readonly text: string }[]
}

/** Every row of a crew, in whatever table, whose texts hold these words; capitals do not count. */
export async function listMentions(
  db: Transaction,
  { crewId, schema, words }: { readonly crewId: number; readonly schema: number; readonly words: string },
): Promise<Mention[]> {
  const wanted = words.trim().toLowerCase()
  if (wanted === '') return []
  const found: Mention[] = []
  for (const shape of await schemaAt(schema)) {
    const crewAt = shape.columns.indexOf('crew_id')
    if (crewAt === -1) continue
    for await (const page of rowsOf(db, shape))
      for (const cells of page.filter((one) => one[crewAt] === crewId)) {
        const columns = shape.columns.flatMap((name, at) => {
          const text = cells[at]
          return typeof text === 'string' && text.toLowerCase().includes(wanted) ? [{ name, text }] : []
        })
        if (columns.length > 0)
          found.push({ table: shape.name, id: Number(cells[shape.columns.indexOf('id')]), columns })
      }
  }
  return found
}

/** Shorter keys are words of a practice room, not somebody's number at a messenger. */
const LONG_KEY = /^\d{15,}$/

/**
 * Takes out who somebody of the crew was: name, messenger id, language, license, last channel, and their name in
 * earlier answers and notes, also what they were called before. Their row stays, since answers and records hang on it; records keep the name beside the
 * chain while they must be kept. @returns rows in which the name stood; null if there is no such person
 */
export async function removePerson(
  db: Transaction,
  { crewId, key, atMs }: { readonly crewId: number; readonly key: string; readonly atMs: number },
): Promise<number | null> {
  const person = await peopleOf(db, crewId).find(key)
  if (person === undefined) return null
  // The key cannot be changed through the types: nobody but this may do so.
  const blank = {
    key: `removed:${person.id}`,
    name: removedPerson(person.id),
    language: null,
    role: 'crew',
    leadsByMessenger: 0,
    lastChannelKey: null,
    settings: '{}',
    removedAtMs: atMs,
  }
  await db
    .updateTable('people')
    .set(blank as never)
    .where('crewId', '=', crewId)
    .where('id', '=', person.id)
    .execute()
  await db
    .deleteFrom('deliveries')
    .where('crewId', '=', crewId)
    .where('personId', '=', person.id)
    .where('sentAtMs', 'is', null)
    .execute()
  const license = person.settings.license?.number
  return redactWords(db, crewId, {
    words: [
      person.name,
      ...person.settings.earlierNames,
      ...(LONG_KEY.test(person.key) ? [person.key] : []),
      ...(license === undefined ? [] : [license]),
    ],
    by: removedPerson(person.id),
  })
}

const removedPerson = (id: number) => `Removed person ${id}`

/**
 * Takes out whose a property is: name, customer, address, notes, and the first three, as they are and were, in earlier answers. Its areas and
 * what was applied there stay. @returns rows in which they stood; null if there is no such property
 */
export async function removeCustomer(
  db: Transaction,
  { crewId, site, atMs }: { readonly crewId: number; readonly site: string; readonly atMs: number },
): Promise<number | null> {
  const row = (await sitesOf(db, crewId).listEver()).find(({ name }) => name === site)
  if (row === undefined) return null
  await db
    .updateTable('sites')
    .set({
      name: removedProperty(row.id),
      address: '',
      details: JSON.stringify(SiteDetails.parse({})),
      retiredAtMs: atMs,
    })
    .where('crewId', '=', crewId)
    .where('id', '=', row.id)
    .execute()
  await db
    .deleteFrom('files')
    .where('crewId', '=', crewId)
    .where('about', '=', 'site')
    .where('aboutId', '=', row.id)
    .execute()
  return redactWords(db, crewId, {
    words: [row.name, row.address, row.details.customer, ...row.details.earlier],
    by: removedProperty(row.id),
  })
}

const removedProperty = (id: number) => `Removed property ${id}`
