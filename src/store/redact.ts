import type { Tables } from './tables.ts'
import type { Transaction } from './transaction.ts'

/** Words that are taken out, and what stands in their place. */
export interface Redaction {
  readonly words: readonly string[]
  readonly by: string
}

/**
 * Where people's words stand beside the rows that they belong to: earlier answers, what is still to be sent, notes.
 * Records and their chain are not among them: these keep what the law asks for, as long as it asks.
 */
const PLACES = {
  turns: ['asked', 'reply', 'state'],
  deliveries: ['reply'],
  mixes: ['body'],
  drafts: ['body'],
  walks: ['body'],
  plantFlags: ['note'],
  plots: ['body'],
  ratings: ['body'],
  visits: ['plan'],
  sites: ['details'],
  areas: ['name', 'details'],
  sprayerEvents: ['details'],
  treatments: ['details'],
  holdLifts: ['reason'],
  incidents: ['words'],
  files: ['name'],
} as const satisfies { readonly [Table in keyof Tables]?: readonly (keyof Tables[Table])[] }

const PAGE = 500

/** Puts other words in the place of somebody's in every row of a crew. @returns how many rows had them */
export async function redactWords(db: Transaction, crewId: number, redaction: Redaction): Promise<number> {
  const redact = redactor(redaction)
  let changed = 0
  for (const [table, columns] of Object.entries(PLACES))
    changed += await redactTable(db, crewId, {
      table: table as 'turns',
      columns: columns as readonly 'asked'[],
      redact,
    })
  return changed
}

interface Place {
  /** Any of them: all have an id, a crew, and these columns of text. */
  readonly table: 'turns'
  readonly columns: readonly 'asked'[]
  readonly redact: (text: string) => string
}

async function redactTable(
  db: Transaction,
  crewId: number,
  { table, columns, redact }: Place,
): Promise<number> {
  let changed = 0
  let after = 0
  for (;;) {
    const rows = await db
      .selectFrom(table)
      .select(['id', ...columns])
      .where('crewId', '=', crewId)
      .where('id', '>', after)
      .orderBy('id')
      .limit(PAGE)
      .execute()
    for (const row of rows) {
      const change = Object.fromEntries(
        columns.flatMap((column) => {
          const text: string | null = row[column]
          const said = text === null ? null : redactText(text, redact)
          return said === text ? [] : [[column, said]]
        }),
      )
      if (Object.keys(change).length === 0) continue
      changed += 1
      // What was asked cannot be changed through the types: nobody but this may do so.
      await db
        .updateTable(table)
        .set(change as never)
        .where('crewId', '=', crewId)
        .where('id', '=', row.id)
        .execute()
    }
    if (rows.length < PAGE) return changed
    after = rows.at(-1)?.id ?? after
  }
}

/** JSON keeps its shape, and only its strings change; any other text changes as a whole. */
function redactText(text: string, redact: (text: string) => string): string {
  if (!/^[[{"]/.test(text)) return redact(text)
  let data: unknown
  try {
    data = JSON.parse(text)
  } catch {
    return redact(text)
  }
  const said = JSON.stringify(data, (key, value) =>
    typeof value === 'string' && !OUR_WORDS.has(key) ? redact(value) : value,
  )
  return said === JSON.stringify(data) ? text : said
}

/** Values that are words of the program, never of people. */
const OUR_WORDS = new Set(['say', 'step', 'command', 'kind', 'outcome', 'unit', 'blob', 'picture', 'paper'])

/**
 * A name of several words, an address or a long number is found in whatever capitals; a single word only as it is
 * written, since "Sandy" may be somebody and sandy soil is not. Never inside a longer word.
 */
function redactor({ words, by }: Redaction): (text: string) => string {
  const patterns = [...new Set(words.map((one) => one.trim()))]
    .filter((one) => one.length > 1)
    .sort((a, b) => b.length - a.length)
    .map((one) => {
      const plain = one.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/\s+/g, '\\s+')
      const flags = /^\p{L}+$/u.test(one) ? 'gu' : 'giu'
      return new RegExp(`(?<![\\p{L}\\p{N}])${plain}(?![\\p{L}\\p{N}])`, flags)
    })
  return (text) => patterns.reduce((so, pattern) => so.replace(pattern, () => by), text)
}
