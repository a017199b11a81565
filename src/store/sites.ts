import { z } from 'zod'
import { Ground } from '#src/calculator/area/shape.ts'
import { Elevation } from './elevation.ts'
import { prepared } from './prepared.ts'
import { remembered } from './remembered.ts'
import type { Transaction } from './transaction.ts'

/** What a crew must mind at this address. Empty text means that nothing is noted. */
export const SiteDetails = z.strictObject({
  notes: z.string().default(''),
  pets: z.string().default(''),
  children: z.string().default(''),
  water: z.string().default(''),
  neighbor: z.string().default(''),
  customer: z.string().default(''),
  /** Height above the sea, where it is not that of the crew. */
  elevation: Elevation.nullable().default(null),
  /** What name, customer and address were before they were changed; earlier answers may still say so. */
  earlier: z.array(z.string()).default([]),
})
export type SiteDetails = z.infer<typeof SiteDetails>

export const AreaDetails = z.strictObject({
  /** Taxon ids of the grasses that grow here; none means unknown. */
  turfs: z.array(z.string()).default([]),
  /** A temporary grass over the permanent one counts while it lives. */
  overseed: z.strictObject({ turf: z.string(), until: z.string().nullable() }).nullable().default(null),
  use: z.string().default(''),
  seededOn: z.string().nullable().default(null),
  soddedOn: z.string().nullable().default(null),
  /** Plain words: true while the permanent grass is brown and asleep. */
  dormant: z.boolean().default(false),
  /** What the size was worked out from, when it was measured here. */
  measured: Ground.exactOptional(),
})
export type AreaDetails = z.infer<typeof AreaDetails>

const readSiteDetails = remembered(SiteDetails)
const readAreaDetails = remembered(AreaDetails)

export interface Site {
  readonly id: number
  readonly name: string
  readonly address: string
  readonly details: SiteDetails
}

export interface Area {
  readonly id: number
  readonly siteId: number
  readonly name: string
  readonly squareFeet: string
  readonly details: AreaDetails
}

const SITE = ['id', 'name', 'address', 'details'] as const
const AREA = ['id', 'siteId', 'name', 'squareFeet', 'details'] as const
const sitesByName = prepared((db, crewId: number) =>
  db
    .selectFrom('sites')
    .select(SITE)
    .where('crewId', '=', crewId)
    .where('retiredAtMs', 'is', null)
    .orderBy('name'),
)
const siteById = prepared((db, crewId: number, id: number) =>
  db
    .selectFrom('sites')
    .select(SITE)
    .where('crewId', '=', crewId)
    .where('retiredAtMs', 'is', null)
    .where('id', '=', id),
)
const siteByName = prepared((db, crewId: number, name: string) =>
  db
    .selectFrom('sites')
    .select(SITE)
    .where('crewId', '=', crewId)
    .where('retiredAtMs', 'is', null)
    .where('name', '=', name)
    .orderBy('id')
    .limit(1),
)
const areasOfSite = prepared((db, crewId: number, siteId: number) =>
  db
    .selectFrom('areas')
    .select(AREA)
    .where('crewId', '=', crewId)
    .where('retiredAtMs', 'is', null)
    .where('siteId', '=', siteId)
    .orderBy('id'),
)

export function sitesOf(db: Transaction, crewId: number) {
  const readSite = (row: { id: number; name: string; address: string; details: string }): Site => ({
    id: row.id,
    name: row.name,
    address: row.address,
    details: readSiteDetails(row.details),
  })
  const readArea = (row: {
    id: number
    siteId: number
    name: string
    squareFeet: string
    details: string
  }): Area => ({
    id: row.id,
    siteId: row.siteId,
    name: row.name,
    squareFeet: row.squareFeet,
    details: readAreaDetails(row.details),
  })
  const sitesEver = () => db.selectFrom('sites').select(SITE).where('crewId', '=', crewId)
  const areas = () =>
    db.selectFrom('areas').select(AREA).where('crewId', '=', crewId).where('retiredAtMs', 'is', null)

  return {
    async create(site: Omit<Site, 'id'>, atMs: number): Promise<number> {
      const { id } = await db
        .insertInto('sites')
        .values({
          crewId,
          name: site.name,
          address: site.address,
          details: JSON.stringify(site.details),
          retiredAtMs: null,
          createdAtMs: atMs,
        })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    async list(): Promise<Site[]> {
      return (await sitesByName(db, crewId)).rows.map(readSite)
    },

    /** With those that were retired: records go on naming them. */
    async listEver(): Promise<Site[]> {
      return (await sitesEver().orderBy('name').execute()).map(readSite)
    },

    /** Names of some, by id, also of those that were retired. */
    async namesOf(ids: Iterable<number>): Promise<ReadonlyMap<number, string>> {
      const wanted = [...new Set(ids)]
      if (wanted.length === 0) return new Map()
      const rows = await db
        .selectFrom('sites')
        .select(['id', 'name'])
        .where('crewId', '=', crewId)
        .where('id', 'in', wanted)
        .execute()
      return new Map(rows.map(({ id, name }) => [id, name]))
    },

    async get(id: number): Promise<Site | undefined> {
      const [row] = (await siteById(db, crewId, id)).rows
      return row === undefined ? undefined : readSite(row)
    },

    /** By its very name; of several with one name the oldest. */
    async findByName(name: string): Promise<Site | undefined> {
      const [row] = (await siteByName(db, crewId, name)).rows
      return row === undefined ? undefined : readSite(row)
    },

    async update(id: number, change: Partial<Omit<Site, 'id'>>): Promise<void> {
      const row = await sitesEver().where('id', '=', id).executeTakeFirst()
      if (row === undefined) return
      const before = readSite(row)
      const { name, address, details } = { ...before, ...change }
      const now = [name, address, details.customer]
      const gone = [before.name, before.address, before.details.customer].filter(
        (one) => one !== '' && !now.includes(one),
      )
      const earlier = [...new Set([...before.details.earlier, ...gone])]
      await db
        .updateTable('sites')
        .set({ name, address, details: JSON.stringify({ ...details, earlier }) })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .execute()
    },

    async retire(id: number, atMs: number): Promise<void> {
      await db
        .updateTable('sites')
        .set({ retiredAtMs: atMs })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .execute()
    },

    async createArea(area: Omit<Area, 'id'>, atMs: number): Promise<number> {
      const { id } = await db
        .insertInto('areas')
        .values({
          crewId,
          siteId: area.siteId,
          name: area.name,
          squareFeet: area.squareFeet,
          details: JSON.stringify(area.details),
          retiredAtMs: null,
          createdAtMs: atMs,
        })
        .returning('id')
        .executeTakeFirstOrThrow()
      return id
    },

    async listAreas(siteId: number): Promise<Area[]> {
      return (await areasOfSite(db, crewId, siteId)).rows.map(readArea)
    },

    async allAreas(): Promise<Area[]> {
      return (await areas().orderBy('id').execute()).map(readArea)
    },

    async getArea(id: number): Promise<Area | undefined> {
      const row = await areas().where('id', '=', id).executeTakeFirst()
      return row === undefined ? undefined : readArea(row)
    },

    async updateArea(id: number, change: Partial<Omit<Area, 'id' | 'siteId'>>): Promise<void> {
      const { details, ...plain } = change
      await db
        .updateTable('areas')
        .set({ ...plain, ...(details === undefined ? {} : { details: JSON.stringify(details) }) })
        .where('crewId', '=', crewId)
        .where('id', '=', id)
        .execute()
    },
  }
}
