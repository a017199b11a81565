import fc from 'fast-check'
import { expect, test } from 'vitest'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import { planLooks } from '#src/recheck/schedule.ts'
import type { Json } from '#src/record/canonical.ts'
import type { Head } from '#src/record/chain.ts'
import { nextLink } from '#src/record/chain.ts'
import { seal } from '#src/record/seal.ts'
import { isWellFormed } from '#src/record/well-formed.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import type { MixBody } from '#src/store/mixes.ts'
import { type Database, openDatabase } from '#src/store/open.ts'
import type { Plot } from '#src/store/plots.ts'
import { AreaDetails, SiteDetails } from '#src/store/sites.ts'
import { SprayerDetails, setupOf } from '#src/store/sprayers.ts'
import { savepoint, type Transaction, write } from '#src/store/transaction.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { STANDING } from '#tests/helpers/keep-record.ts'
import { aCrew, anArea, aPerson, aProduct, aSite, aSprayer, demoEntry } from '#tests/helpers/rows.ts'
import { record as aRecord, saltOf } from '#tests/record/build.ts'
import { readSchedule } from '../../data/recheck/load.ts'
import { rating as aRating } from '../efficacy/build.ts'

/** What a hostile or confused caller may pass: any id, any text, any name that another crew uses. */
interface Tried {
  readonly id: number
  readonly other: number
  readonly words: string
}

const answer = reply('answer', asTyped('changed by another crew'))
const contents = { products: [], volume: null, rate: null, output: null, note: 'changed' }
const details = { product: 'x', rate: '1', lineId: null, treatedFt2: '1', amount: null, note: 'changed' }
const site = { name: 'changed', address: 'changed', details: SiteDetails.parse({}) }
const area = { name: 'changed', squareFeet: '1', details: AreaDetails.parse({}) }
const walk = {
  siteId: null,
  areaId: null,
  turfs: [],
  turfUnknown: true,
  guess: null,
  mown: true,
  hasHead: false,
  answers: [],
}
const mixed: MixBody['products'][number] = {
  name: 'x',
  entryId: 1,
  revisionId: 1,
  lineId: null,
  rate: { kind: 'share', value: '1', unit: '%', of: 'product', basis: 'v/v' },
  amount: null,
}
const mix: MixBody = {
  products: [mixed],
  adjuvants: [],
  made: { value: '1', unit: 'gal' },
  loads: 1,
  output: null,
  sprayerId: null,
  forId: null,
  places: [],
  weed: null,
}
const linkOf = (words: string, head: Head | null = null) =>
  nextLink(head, {
    kind: 'record',
    sealed: seal(
      aRecord({ county: words.trim().slice(0, 20) || 'x', number: 'R-1' }) as unknown as Json,
      saltOf,
    ),
  })
const standing = { ...STANDING, appliedOn: 'x' }
const looks = {
  recordNumber: null,
  walkId: null,
  siteId: null,
  areaId: null,
  ownerId: 1,
  plan: planLooks(
    { treatedOn: '2026-05-04', group: 'sedge', lifecycles: ['perennial'], secondMeant: true },
    readSchedule(),
    { workdays: { weekdays: [1], daysOff: [] } },
  ),
  untreated: 'open',
} as const
const plot: Omit<Plot, 'id' | 'createdAtMs'> = {
  recordNumber: 1,
  areaId: null,
  kind: 'treated',
  flag: '1',
  body: { where: 'changed', pin: null, size: '', coverPercent: null },
  personId: 1,
}
const seen = aRating({ on: '2026-06-01' })
const ounce = { value: '1', unit: 'oz wt' } as const
const sprayer = SprayerDetails.parse({ tank: { value: '9', unit: 'gal' } })

/** Every method of every repository, called with ids and texts from outside. */
const calls: Readonly<Record<string, (store: CrewStore, tried: Tried) => Promise<unknown>>> = {
  'people.find': (s, { words }) => s.people.find(words),
  'people.get': (s, { id }) => s.people.get(id),
  'people.findOrCreate': (s, { words }) => s.people.findOrCreate({ key: words, name: 'x', atMs: NOON_MS }),
  'people.list': (s) => s.people.list(),
  'people.leads': (s) => s.people.leads(),
  'people.update': (s, { id }) => s.people.update(id, { role: 'lead', language: 'es' }),
  'turns.create': (s, { id, words }) =>
    s.turns.create({ requestId: words, personId: id, command: 'x', asked: {}, atMs: NOON_MS, day: 'x' }),
  'turns.finish': (s, { id }) => s.turns.finish(id, 'changed', answer, null),
  'turns.remove': (s, { id }) => s.turns.remove(id),
  'turns.get': (s, { id }) => s.turns.get(id),
  'turns.isClosed': (s, { id }) => s.turns.isClosed(id),
  'turns.findByNumber': (s, { id }) => s.turns.findByNumber(id),
  'turns.findByRequest': (s, { words }) => s.turns.findByRequest(words),
  'turns.close': (s, { id }) => s.turns.close(id, 'changed'),
  'turns.listLatest': (s) => s.turns.listLatest(100),
  'turns.list': (s, { id, words }) => s.turns.list({ personId: id, command: words, limit: 100 }),
  'files.attach': (s, { id, words }) =>
    s.files.attach({ blob: 'x', name: 'x', type: 'x', bytes: 1 }, words, id, NOON_MS),
  'files.list': (s, { id, words }) => s.files.list(words, id),
  'sites.create': (s) => s.sites.create(site, NOON_MS),
  'sites.list': (s) => s.sites.list(),
  'sites.listEver': (s) => s.sites.listEver(),
  'sites.namesOf': (s, { id }) => s.sites.namesOf([id]),
  'sites.get': (s, { id }) => s.sites.get(id),
  'sites.findByName': (s) => s.sites.findByName(site.name),
  'sites.update': (s, { id }) => s.sites.update(id, site),
  'sites.retire': (s, { id }) => s.sites.retire(id, NOON_MS),
  'sites.createArea': (s, { id }) => s.sites.createArea({ siteId: id, ...area }, NOON_MS),
  'sites.listAreas': (s, { id }) => s.sites.listAreas(id),
  'sites.allAreas': (s) => s.sites.allAreas(),
  'sites.getArea': (s, { id }) => s.sites.getArea(id),
  'sites.updateArea': (s, { id }) => s.sites.updateArea(id, area),
  'sprayers.create': (s) => s.sprayers.create({ name: 'changed', details: sprayer }, NOON_MS),
  'sprayers.list': (s) => s.sprayers.list(),
  'sprayers.get': (s, { id }) => s.sprayers.get(id),
  'sprayers.update': (s, { id }) => s.sprayers.update(id, sprayer),
  'sprayers.retire': (s, { id }) => s.sprayers.retire(id, NOON_MS),
  'sprayers.keepCalibration': (s, { id, other }) =>
    s.sprayers.keepCalibration(
      {
        sprayerId: id,
        personId: other,
        setup: 'red|30 psi',
        output: { value: '9', unit: 'gal/1000 ft2' },
        measuredOn: 'x',
      },
      NOON_MS,
    ),
  'sprayers.findCalibration': (s, { id, other }) =>
    s.sprayers.findCalibration(
      { id, name: '', details: { ...sprayer, tip: 'red', pressure: '30 psi' } },
      other,
    ),
  'sprayers.listCalibrations': (s, { id, other }) => s.sprayers.listCalibrations(id, other),
  'sprayers.addEvent': (s, { id, other }) =>
    s.sprayers.addEvent({
      sprayerId: id,
      personId: other,
      turnId: id,
      kind: 'unknown',
      details: contents,
      atMs: 0,
    }),
  'sprayers.listEvents': (s, { id }) => s.sprayers.listEvents(id, 100),
  'labels.createEntry': (s) => s.labels.createEntry('changed', NOON_MS),
  'labels.addRevision': (s, { id, other }) =>
    s.labels.addRevision(id, demoEntry(), { personId: other, atMs: NOON_MS }),
  'labels.makeLive': (s, { id, other }) => s.labels.makeLive({ id, entryId: other }, { by: null, on: 'x' }),
  'labels.dropRevision': (s, { id }) => s.labels.dropRevision(id),
  'labels.confirm': (s, { id }) => s.labels.confirm(id, 'changed'),
  'labels.retire': (s, { id }) => s.labels.retire(id, NOON_MS),
  'labels.list': (s) => s.labels.list(),
  'labels.names': (s) => s.labels.names(),
  'labels.findByName': (s, { words }) => s.labels.findByName(words),
  'labels.get': (s, { id }) => s.labels.get(id),
  'labels.listRevisions': (s, { id }) => s.labels.listRevisions(id),
  'labels.getRevision': (s, { id }) => s.labels.getRevision(id),
  'labels.bodiesOf': (s, { id, other }) => s.labels.bodiesOf([id, other]),
  'labels.liveBodiesOf': (s, { words }) => s.labels.liveBodiesOf([words]),
  'treatments.add': (s, { id, other }) =>
    s.treatments.add(
      { areaId: id, entryId: other, revisionId: other, personId: id, details, treatedOn: 'x' },
      0,
    ),
  'treatments.list': (s, { id }) => s.treatments.list(id, ''),
  'refusedRates.add': (s, { id, words }) =>
    s.refusedRates.add({ personId: id, product: 'x', rate: words, atMs: 0 }),
  'refusedRates.find': (s, { words }) => s.refusedRates.find(words),
  'incidents.open': (s, { id, other, words }) =>
    s.incidents.open({ personId: id, turnId: other, words, createdAtMs: 0 }),
  'incidents.listOpen': (s, { id }) => s.incidents.listOpen(id),
  'incidents.close': (s, { id, other }) => s.incidents.close(id, other, NOON_MS),
  'holdLifts.add': (s, { id, other }) =>
    s.holdLifts.add({ entryId: id, areaId: other, day: 'x', personId: id, reason: 'changed' }, 0),
  'holdLifts.find': (s, { id, other }) => s.holdLifts.find(id, other, 'x'),
  'deliveries.plan': (s, { id, words }) =>
    s.deliveries.plan({ personId: id, command: 'x', reply: answer, nonce: words, dueAtMs: 0 }, 0),
  'deliveries.list': (s, { words }) => s.deliveries.list([words, 'nonce']),
  'deliveries.withdraw': (s, { words }) => s.deliveries.withdraw([words, 'nonce']),
  'deliveries.waitingFor': (s, { words }) => s.deliveries.waitingFor(words),
  'walks.create': (s, { id, other }) =>
    s.walks.create({ number: other, personId: id, status: 'asking', body: { ...walk, siteId: other } }, 0),
  'walks.update': (s, { id }) => s.walks.update(id, { status: 'left', body: walk }, NOON_MS),
  'walks.get': (s, { id }) => s.walks.get(id),
  'walks.findByNumber': (s, { id }) => s.walks.findByNumber(id),
  'walks.listOpen': (s) => s.walks.listOpen(100),
  'plantFlags.open': (s, { id, other }) =>
    s.plantFlags.open({ walkId: id, turnId: other, personId: id, note: 'changed' }, 0),
  'plantFlags.name': (s, { id, other }) =>
    s.plantFlags.name(id, { name: 'changed', taxon: null, namedBy: other }, NOON_MS),
  'plantFlags.ofWalk': (s, { id }) => s.plantFlags.ofWalk(id),
  'mixes.create': (s, { id }) => s.mixes.create(id, mix, 0),
  'mixes.get': (s, { id }) => s.mixes.get(id),
  'mixes.findByNumber': (s, { id }) => s.mixes.findByNumber(id),
  'mixes.listOpen': (s, { id }) => s.mixes.listOpen(id, 100),
  'mixes.close': (s, { id }) => s.mixes.close(id, 'not sprayed', NOON_MS),
  'drafts.create': (s, { id, other }) => s.drafts.create({ personId: id, mixId: other, draft: {} }, 0),
  'drafts.get': (s, { id }) => s.drafts.get(id),
  'drafts.listOpen': (s, { id }) => s.drafts.listOpen(id, 100),
  'drafts.update': (s, { id }) => s.drafts.update(id, { county: 'changed' }, NOON_MS),
  'drafts.close': (s, { id }) => s.drafts.close(id, 'dropped', NOON_MS),
  'records.head': (s) => s.records.head(),
  'records.append': async (s, { id, words }) =>
    s.records.append(linkOf(isWellFormed(words) ? words : 'x', await s.records.head()), id, 0),
  'records.pageLinks': (s) => s.records.pageLinks(0, 100),
  'records.linksOf': (s, { id }) => s.records.linksOf(id),
  'records.linksOfAll': async (s, { id, other }) => {
    const linksOf = await s.records.linksOfAll([id, other])
    return [id, other].map(linksOf)
  },
  'records.months': (s, { id }) => s.records.months({ siteId: id }, 100),
  'records.productNames': (s) => s.records.productNames(),
  'records.removePersonal': (s, { id }) => s.records.removePersonal(id),
  'records.nextNumber': (s) => s.records.nextNumber(),
  'records.create': (s, { id, other }) =>
    s.records.create({ ...standing, number: other + 100, linkId: id, personId: other, mixId: id }, ['x'], 0),
  'records.restate': (s, { id, other }) => s.records.restate(id, { ...standing, siteId: other }, ['changed']),
  'records.find': (s, { id }) => s.records.find(id),
  'records.list': (s, { words }) => s.records.list({ product: words }, { limit: 100 }),
  'records.listNewest': (s, { id }) => s.records.listNewest({ siteId: id }, 100),
  'records.ofMix': (s, { id }) => s.records.ofMix(id),
  'stock.add': (s, { id, words }) =>
    s.stock.add({ personId: id, product: words, kind: 'in', amount: ounce, atMs: 0, lot: 'changed' }, 0),
  'stock.use': (s, { id, other, words }) =>
    s.stock.use(
      { number: id, version: other, personId: other },
      [{ product: words, amount: ounce, atMs: 0 }],
      0,
    ),
  'stock.list': (s, { words }) => s.stock.list(words),
  'stock.products': (s) => s.stock.products(),
  'stock.entered': (s, { words }) => s.stock.entered(words),
  'stock.usedAfter': (s, { words }) => s.stock.usedAfter(words, null),
  'stock.latest': (s, { words }) => s.stock.latest(words, 9),
  'records.voidTreatments': (s, { id, other }) => s.records.voidTreatments([id, other], NOON_MS),
  'visits.create': (s, { id, other }) =>
    s.visits.create({ ...looks, recordNumber: other, siteId: id, ownerId: id }, 0),
  'visits.get': (s, { id }) => s.visits.get(id),
  'visits.ofRecord': (s, { id }) => s.visits.ofRecord(id),
  'visits.ofWalk': (s, { id }) => s.visits.ofWalk(id),
  'visits.ofArea': (s, { id }) => s.visits.ofArea(id),
  'visits.listOpen': (s) => s.visits.listOpen('9999-12-31'),
  'visits.update': (s, { id }) => s.visits.update(id, { untreated: 'none', plan: looks.plan }, NOON_MS),
  'plots.create': (s, { id, other, words }) =>
    s.plots.create({ ...plot, recordNumber: id, personId: other, flag: words }, 0),
  'plots.list': (s, { id }) => s.plots.list(id),
  'ratings.add': (s, { id, other }) =>
    s.ratings.add({ visitId: id, lookId: null, personId: other, rating: seen }, 0),
  'ratings.list': (s, { id }) => s.ratings.list(id),
}

/** Stands in everything that crew two keeps and is never passed by crew one. */
const MARK = 'only of crew two'
/** Names, keys and request ids that the other crew uses too. */
const SHARED = ['ada', 'request', 'site', 'Invented one', 'Invented two', '9 oz wt/1000 ft2', 'nonce', 'x']

/** One row of everything for a crew, with a mark in its texts where the texts are free. */
async function fill(store: CrewStore, which: 'one' | 'two'): Promise<void> {
  const mark = which === 'one' ? 'own' : MARK
  const person = await aPerson(store, { name: `Ada ${mark}` })
  const turn = await store.turns.create({
    requestId: 'request',
    personId: person.id,
    command: 'x',
    asked: { mark },
    atMs: NOON_MS,
    day: 'x',
  })
  const turnId = turn?.id ?? 0
  await store.turns.finish(turnId, 'x', reply('answer', asTyped(mark)), null)
  const place = await aSite(store, { name: mark })
  const ground = await anArea(store, place.id, { name: mark })
  await store.files.attach({ blob: mark, name: mark, type: 'x', bytes: 1 }, 'site', place.id, NOON_MS)
  const can = await aSprayer(store, { name: mark })
  await store.sprayers.keepCalibration(
    {
      sprayerId: can.id,
      personId: person.id,
      setup: setupOf(can.details),
      output: { value: '1', unit: mark },
      measuredOn: 'x',
    },
    NOON_MS,
  )
  const event = { sprayerId: can.id, personId: person.id, turnId, kind: 'poured' as const, atMs: 0 }
  await store.sprayers.addEvent({ ...event, details: { ...contents, note: mark } })
  const { entryId, revisionId } = await aProduct(store, person.id, { name: `Invented ${which}` })
  await store.labels.confirm(entryId, mark)
  await store.holdLifts.add({ entryId, areaId: ground.id, day: 'x', personId: person.id, reason: mark }, 0)
  await store.treatments.add(
    {
      areaId: ground.id,
      entryId,
      revisionId,
      personId: person.id,
      details: { ...details, note: mark },
      treatedOn: 'x',
    },
    NOON_MS,
  )
  await store.refusedRates.add({ personId: person.id, product: mark, rate: '9 oz wt/1000 ft2', atMs: 0 })
  await store.incidents.open({ personId: person.id, turnId, words: mark, createdAtMs: NOON_MS })
  const guess = { words: mark, ids: [] }
  const walkId = await store.walks.create(
    { number: 1, personId: person.id, status: 'hold', body: { ...walk, siteId: place.id, guess } },
    NOON_MS,
  )
  await store.plantFlags.open({ walkId, turnId, personId: person.id, note: mark }, NOON_MS)
  const kept = await store.mixes.create(person.id, { ...mix, products: [{ ...mixed, name: mark }] }, 0)
  await store.drafts.create({ personId: person.id, mixId: kept.id, draft: { county: mark } }, 0)
  const linkId = await store.records.append(linkOf(mark), 1, 0)
  await store.records.create(
    {
      ...standing,
      number: 1,
      linkId,
      personId: person.id,
      siteId: place.id,
      mixId: kept.id,
      appliedOn: mark,
    },
    ['x'],
    0,
  )
  const visitId = await store.visits.create(
    { ...looks, recordNumber: 1, siteId: place.id, areaId: ground.id, ownerId: person.id },
    0,
  )
  await store.plots.create({ ...plot, flag: mark, personId: person.id, areaId: ground.id }, 0)
  await store.ratings.add({ visitId, lookId: mark, personId: person.id, rating: seen }, 0)
  await store.stock.add(
    { personId: person.id, product: 'x', kind: 'in', amount: ounce, atMs: 0, lot: mark },
    0,
  )
  await store.stock.use(
    { number: 1, version: 1, personId: person.id },
    [{ product: mark, amount: ounce, atMs: 0 }],
    0,
  )
  const message = reply('answer', asTyped(mark))
  await store.deliveries.plan(
    { personId: person.id, command: 'x', reply: message, nonce: 'nonce', dueAtMs: 0 },
    0,
  )
}

const TABLES = [
  'people',
  'turns',
  'files',
  'sites',
  'areas',
  'sprayers',
  'calibrations',
  'sprayerEvents',
  'labelEntries',
  'labelRevisions',
  'treatments',
  'refusedRates',
  'incidents',
  'deliveries',
  'holdLifts',
  'walks',
  'plantFlags',
  'mixes',
  'drafts',
  'chainLinks',
  'personalValues',
  'records',
  'recordProducts',
  'visits',
  'plots',
  'ratings',
  'stockMovements',
] as const

const rowsOf = async (db: Transaction, crewId: number) =>
  Promise.all(
    TABLES.map((table) =>
      db.selectFrom(table).selectAll().where('crewId', '=', crewId).orderBy('id').execute(),
    ),
  )

test('every table that belongs to a crew is looked at', async () => {
  const { db } = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
  const tables = await db.introspection.getTables()
  await db.destroy()
  const ofCrews = tables.filter(({ columns }) => columns.some(({ name }) => name === 'crew_id'))
  const inCapitals = (name: string) => name.replace(/_(.)/g, (_, letter: string) => letter.toUpperCase())
  expect(ofCrews.map(({ name }) => inCapitals(name)).sort()).toEqual([...TABLES].sort())
})

test('every method of every repository is tried', () => {
  const store = crewStore({} as Transaction, 0)
  const all = Object.entries(store).flatMap(([noun, methods]) =>
    Object.keys(methods).map((method) => `${noun}.${method}`),
  )
  expect(Object.keys(calls).sort()).toEqual(all.sort())
})

const CHILDREN = [
  'turns.create',
  'sites.createArea',
  'sprayers.keepCalibration',
  'sprayers.addEvent',
  'labels.addRevision',
  'treatments.add',
  'refusedRates.add',
  'incidents.open',
  'holdLifts.add',
  'deliveries.plan',
  'walks.create',
  'plantFlags.open',
  'mixes.create',
  'drafts.create',
  'records.create',
  'visits.create',
  'plots.create',
  'ratings.add',
  'stock.add',
  'stock.use',
]

/** Two crews with a row of everything; crew two has one site more, so that not all ids go side by side. */
function fillTwo(database: Database) {
  return write(database, async (db) => {
    const crews = [await aCrew(db), await aCrew(db, { key: 'test:2' })] as const
    await fill(crewStore(db, crews[0].id), 'one')
    await fill(crewStore(db, crews[1].id), 'two')
    await aSite(crewStore(db, crews[1].id), { name: MARK })
    return crews
  })
}

/** Takes back what one run has done, so that the next begins with the same rows. */
class Undone extends Error {}

eachEngine('two crews', (place) => {
  test('whatever is passed, no method of one returns or changes a row of the other', async () => {
    const database = await place.open()
    const [one, two] = await fillTwo(database)
    const before = await rowsOf(database.db, two.id)
    const step = fc.record({
      method: fc.constantFrom(...Object.keys(calls)),
      id: fc.integer({ min: 0, max: 6 }),
      other: fc.integer({ min: 0, max: 6 }),
      words: fc.oneof(fc.constantFrom(...SHARED), fc.string({ maxLength: 12 })),
    })
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 20, maxLength: 60 }), async (steps) => {
        const tried = write(database, async (db) => {
          const store = crewStore(db, one.id)
          const returned: unknown[] = []
          for (const { method, ...passed } of steps)
            returned.push(await attempt(db, calls[method], store, passed))
          expect(JSON.stringify(returned)).not.toContain(MARK)
          expect(await rowsOf(db, two.id)).toEqual(before)
          throw new Undone()
        })
        await expect(tried).rejects.toBeInstanceOf(Undone)
      }),
      { numRuns: 40 },
    )
  })

  test.each(CHILDREN)('%s makes no row that hangs on the other crew', async (method) => {
    const database = await place.open()
    const [one] = await fillTwo(database)
    const hanging = write(database, (db) =>
      Promise.resolve(calls[method]?.(crewStore(db, one.id), { id: 2, other: 2, words: 'new' })),
    )
    await expect(hanging).rejects.toThrow(/foreign key/i)
  })
})

/** What the method returned; a refusal by the database undoes its own work and counts as nothing. */
async function attempt(
  db: Transaction,
  call: ((store: CrewStore, tried: Tried) => Promise<unknown>) | undefined,
  store: CrewStore,
  passed: Tried,
): Promise<unknown> {
  if (call === undefined) throw new RangeError('Cannot try a method that is not listed')
  const words = passed.words.replaceAll('\0', '')
  return savepoint(db, () => call(store, { ...passed, words })).catch((error: unknown) => {
    if (!/constraint|foreign key|unique/i.test(String(error))) throw error
    return null
  })
}
