import { z } from 'zod'
import type { Transaction } from './transaction.ts'

const PersonSettings = z.strictObject({
  units: z.enum(['us', 'metric']).nullable().default(null),
  /** A license on file: with it a lead may lift a hold, for one product, area and day. */
  license: z.strictObject({ number: z.string(), expiresOn: z.string() }).nullable().default(null),
  /** The licensed lead who named this person as deputy. */
  deputyOf: z.number().int().nullable().default(null),
})
export type PersonSettings = z.infer<typeof PersonSettings>

export interface Person {
  readonly id: number
  readonly key: string
  readonly name: string
  readonly language: string | null
  readonly role: 'lead' | 'crew'
  readonly settings: PersonSettings
}

interface NewPerson {
  readonly key: string
  readonly name: string
  readonly atMs: number
  readonly role?: Person['role']
  readonly language?: string
  readonly settings?: Partial<PersonSettings>
}

type Row = {
  id: number
  key: string
  name: string
  language: string | null
  role: string
  settings: string
}
const COLUMNS = ['id', 'key', 'name', 'language', 'role', 'settings'] as const

const read = (row: Row): Person => ({
  id: row.id,
  key: row.key,
  name: row.name,
  language: row.language,
  role: z.enum(['lead', 'crew']).parse(row.role),
  settings: PersonSettings.parse(JSON.parse(row.settings)),
})

/** Somebody who is not kept yet, while nothing can be written. */
export function strangePerson({ key, name }: Pick<NewPerson, 'key' | 'name'>): Person {
  return { id: 0, key, name, language: null, role: 'crew', settings: PersonSettings.parse({}) }
}

export function peopleOf(db: Transaction, crewId: number) {
  const find = async (key: string): Promise<Person | undefined> => {
    const row = await db
      .selectFrom('people')
      .select(COLUMNS)
      .where('crewId', '=', crewId)
      .where('key', '=', key)
      .executeTakeFirst()
    return row === undefined ? undefined : read(row)
  }

  return {
    find,

    async get(id: number): Promise<Person | undefined> {
      const row = await db
        .selectFrom('people')
        .select(COLUMNS)
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    /** The person as the messenger calls them today; made at their first word. */
    async findOrCreate(person: NewPerson): Promise<Person> {
      const known = await find(person.key)
      if (known !== undefined && known.name === person.name) return known
      if (known !== undefined) {
        await db.updateTable('people').set({ name: person.name }).where('id', '=', known.id).execute()
        return { ...known, name: person.name }
      }
      await db
        .insertInto('people')
        .values({
          crewId,
          key: person.key,
          name: person.name,
          language: person.language ?? null,
          role: person.role ?? 'crew',
          settings: JSON.stringify(PersonSettings.parse(person.settings ?? {})),
          removedAtMs: null,
          createdAtMs: person.atMs,
        })
        .onConflict((on) => on.columns(['crewId', 'key']).doNothing())
        .execute()
      const made = await find(person.key)
      if (made === undefined) throw new Error(`Cannot find the person just made: ${person.key}`)
      return made
    },

    async list(): Promise<Person[]> {
      const rows = await db
        .selectFrom('people')
        .select(COLUMNS)
        .where('crewId', '=', crewId)
        .where('removedAtMs', 'is', null)
        .orderBy('id')
        .execute()
      return rows.map(read)
    },

    async update(id: number, change: Partial<Pick<Person, 'language' | 'role' | 'settings'>>): Promise<void> {
      const { settings, ...plain } = change
      await db
        .updateTable('people')
        .set({ ...plain, ...(settings === undefined ? {} : { settings: JSON.stringify(settings) }) })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .execute()
    },
  }
}
