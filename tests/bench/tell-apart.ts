import { sql } from 'kysely'
import { momentAt } from '#src/desk/moments.ts'
import { canonicalJson, type Json } from '#src/record/canonical.ts'
import { type Head, type Link, nextLink } from '#src/record/chain.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { recordName } from '#src/record/number.ts'
import { ApplicationRecord } from '#src/record/record.ts'
import { type Kept, seal, sha256, unseal } from '#src/record/seal.ts'
import { compassPoints } from '#src/record/values.ts'
import { write } from '#src/store/transaction.ts'
import type { Practice } from './practice.ts'

interface Copied {
  readonly id: number
  readonly crew: number
  readonly number: number
  readonly body: string
  readonly site: number
  readonly day: string
  readonly atMs: number
}

/**
 * Copies of one record become records of their own, as a crew would have written them: each with its number, place, day
 * and hours, customer, product and figures, sealed with salts of its own, on a chain that holds. Whoever remembers what
 * it has read finds no more in them that it knows than among real ones.
 */
export function tellApart({ bot }: Practice): Promise<void> {
  return write(bot.database, async (db) => {
    const { rows: personal } = await sql<{ path: string; salt: string; value: string }>`
      select path, salt, value from personal_values
      where link_id = (select min(link_id) from personal_values)
    `.execute(db)
    const kept = Object.fromEntries(
      personal.map(({ path, salt, value }): [string, Kept] => [path, { salt, value: JSON.parse(value) }]),
    )
    const { rows: copies } = await sql<Copied>`
      select l.id, l.crew_id as crew, r.number, l.body, r.site_id as site, r.applied_on as day, l.created_at_ms as "atMs"
      from chain_links l join records r on r.link_id = l.id order by l.seq
    `.execute(db)
    await sql`delete from personal_values`.execute(db)
    let head: Head | null = null
    for (const copied of copies) {
      const copy = ApplicationRecord.parse(unseal({ open: JSON.parse(copied.body) as Json, kept }))
      const record = ApplicationRecord.parse({ ...copy, ...itsOwn(copy, copied) })
      const sealed = seal(record as unknown as Json, (path) => sha256(`${copied.number} ${path}`))
      const link: Link = nextLink(head, { kind: 'record', sealed })
      head = link
      await sql`
        update chain_links set body = ${canonicalJson(sealed.open)}, previous = ${link.previous}, hash = ${link.hash}
        where id = ${copied.id}
      `.execute(db)
      for (const [path, { salt, value }] of Object.entries(sealed.kept))
        await sql`
          insert into personal_values (crew_id, link_id, path, salt, value, created_at_ms)
          values (${copied.crew}, ${copied.id}, ${path}, ${salt}, ${canonicalJson(value)}, ${copied.atMs})
        `.execute(db)
    }
    // What the engine knew of this table until now was that it had a handful of rows, which it would read one by one.
    await sql`analyze`.execute(db)
  })
}

const ZONE = 'America/New_York'
const PRODUCTS = 12
const PEOPLE = 5
const SEVEN = 7 * 60

/** What differs between the records of a season: everything but how the crew works. */
function itsOwn(copy: ApplicationRecord, { number, site, day }: Copied): Partial<ApplicationRecord> {
  const start = SEVEN + ((number * 7) % 480)
  const startedAt = momentAt(ZONE, day, start)
  const read = <T>(value: T) => [{ value, takenAt: startedAt }]
  const [product] = recorded(copy.products) ?? []
  if (product === undefined) throw new Error('Cannot make records of one without a product')
  const which = number % PRODUCTS
  const who = { name: `Invented Person ${number % PEOPLE}`, id: 1 + (number % PEOPLE) }
  const area = 500 + ((number * 37) % 9000)
  return {
    number: recordName(number),
    siteId: site,
    date: day,
    startedAt,
    endedAt: momentAt(ZONE, day, start + 20 + (number % 60)),
    writtenAt: momentAt(ZONE, day, start + 95 + (number % 120)),
    keepUntil: `${Number(day.slice(0, 4)) + 7}${day.slice(4).replace('-02-29', '-02-28')}`,
    writtenBy: who,
    applicator: who,
    customerName: `Household ${site} (demo)`,
    placeAddress: { street: `${site} Plimmet Street`, town: 'Fallowquay', state: 'NC', zip: '00012' },
    treatedArea: { value: String(area), unit: 'ft2' },
    mixDrawn: { value: String(Math.ceil(area / 100) / 10), unit: 'gal' },
    products: [
      {
        ...product,
        name: `${product.name} ${which}`,
        registration: `9999999-${which}`,
        amount: { value: String(area / 4000), unit: 'fl oz' },
      },
    ],
    temperature: read({ value: String(52 + ((number * 11) % 40)), unit: 'F' as const }),
    humidityPercent: read(String(30 + ((number * 13) % 60))),
    windSpeed: read({ value: String(1 + ((number * 5) % 9)), unit: 'mph' as const }),
    windFrom: read(compassPoints[number % compassPoints.length] ?? 'variable'),
    rain: read({ hoursSince: String((number * 3) % 96), hoursUntil: String(12 + (number % 36)) }),
  }
}
