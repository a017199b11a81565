import { describe, expect, test } from 'vitest'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { PrivacyError, privacy } from '#src/privacy/privacy.ts'
import type { Json } from '#src/record/canonical.ts'
import { nextLink } from '#src/record/chain.ts'
import { seal } from '#src/record/seal.ts'
import { chainHeads } from '#src/store/chain-heads.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew, updateCrew } from '#src/store/crews.ts'
import { crewsOfPerson } from '#src/store/crews-of.ts'
import type { Database } from '#src/store/open.ts'
import { SiteDetails } from '#src/store/sites.ts'
import { readOnly, write } from '#src/store/transaction.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { keepRecord } from '#tests/helpers/keep-record.ts'
import { aCrew, anArea, aPerson, aSite } from '#tests/helpers/rows.ts'
import { record as aRecord, english, saltOf } from '#tests/record/build.ts'

const YEAR_MS = 365 * 86_400_000
const CUSTOMER = 'Quillon Invented'

/** A crew with a person, a customer and a record of the same day; another crew that uses the same names. */
async function fill(database: Database): Promise<void> {
  await write(database, async (db) => {
    for (const key of ['test:1', 'test:2']) {
      const store = crewStore(db, (await aCrew(db, { key })).id)
      const person = await aPerson(store, { name: 'Ada Test' })
      const details = SiteDetails.parse({ customer: CUSTOMER, notes: 'gate code 4711' })
      const site = await aSite(store, { details })
      await anArea(store, site.id)
      await store.files.attach({ blob: 'x', name: 'gate.png', type: 'x', bytes: 1 }, 'site', site.id, NOON_MS)
      const body = aRecord({ number: 'R-1' }) as unknown as Json
      const link = nextLink(await store.records.head(), { kind: 'record', sealed: seal(body, saltOf) })
      const linkId = await store.records.append(link, 1, NOON_MS)
      await store.records.create(
        {
          number: 1,
          linkId,
          personId: person.id,
          siteId: site.id,
          areaId: null,
          mixId: null,
          drawn: null,
          appliedOn: '2026-05-04',
          complete: true,
          withinLabel: 'yes',
          late: false,
          treatments: [],
          voidedAtMs: null,
        },
        [],
        NOON_MS,
      )
    }
  })
}

eachEngine('what is kept about somebody', (place) => {
  const open = async () => {
    const database = await place.open()
    await fill(database)
    const ask = (wish: Parameters<typeof privacy>[1], nowMs = NOON_MS) =>
      privacy(database, wish, { crew: 'test:1', nowMs })
    const mentions = async (words: string) => (await ask({ kind: 'list', words })).slice(1)
    return { database, ask, mentions }
  }
  const see = <T>(
    database: Database,
    key: string,
    look: (store: ReturnType<typeof crewStore>) => Promise<T>,
  ) => readOnly(database, async (db) => look(crewStore(db, (await findCrew(db, key))?.id ?? 0)))

  test('is listed by table and row, whatever the capitals, and of one crew only', async () => {
    const { mentions } = await open()
    expect(await mentions('quillon')).toEqual([expect.stringMatching(/^sites \d+: details$/)])
    expect(await mentions('ADA TEST')).toEqual([expect.stringMatching(/^people \d+: name$/)])
    expect(await mentions('nobody at all')).toEqual([])
  })

  test('is shown whole to whoever asks for it, a column a line', async () => {
    const { ask } = await open()
    const [count, ...lines] = await ask({ kind: 'list', words: 'quillon', texts: true })
    expect(count).toMatch(/^1 rows of .* hold “quillon”$/)
    expect(lines).toEqual([
      expect.stringMatching(/^sites \d+ details: \{.*gate code 4711.*Quillon Invented.*\}$/),
    ])
  })

  test('of a customer is taken out; areas and records stay, and the other crew’s customer too', async () => {
    const { database, ask, mentions } = await open()
    await ask({ kind: 'customer', site: 'Invented Row 5' })
    expect([
      ...(await mentions('quillon')),
      ...(await mentions('4711')),
      ...(await mentions('invented row')),
    ]).toEqual([])
    const [record] = await see(database, 'test:1', (store) => store.records.list({}, { limit: 9 }))
    expect(record).toMatchObject({ number: 1 })
    const areas = await see(database, 'test:1', (store) => store.sites.listAreas(record?.siteId ?? 0))
    expect(areas.map(({ name }) => name)).toEqual(['front'])
    expect(await see(database, 'test:2', (store) => store.sites.list())).toMatchObject([
      { name: 'Invented Row 5', details: { customer: CUSTOMER } },
    ])
  })

  test('of a person is taken out: no name, no key, no crew that lets them in', async () => {
    const { database, ask, mentions } = await open()
    await ask({ kind: 'person', key: 'ada' })
    expect(await mentions('Ada Test')).toEqual([])
    expect((await crewsOfPerson(database, 'ada', 'test:')).map(({ key }) => key)).toEqual(['test:2'])
    expect(await see(database, 'test:1', (store) => store.people.list())).toEqual([])
  })

  describe('in earlier answers', () => {
    /** An answer, a message on its way and a note, with the same words in both crews. */
    const answered = async (database: Database, said: string) => {
      await write(database, async (db) => {
        for (const key of ['test:1', 'test:2']) {
          const crew = await findCrew(db, key)
          const store = crewStore(db, crew?.id ?? 0)
          const person = await store.people.find('ada')
          const personId = person?.id ?? 0
          const turn = { requestId: `asked in ${key}`, personId, command: 'site show', atMs: NOON_MS }
          const asked = { options: { site: said, note: 'sandy soil' } }
          const made = await store.turns.create({ ...turn, asked, day: '2026-05-04' })
          const shown = reply('answer', say('words.as-typed', { words: said }), {
            facts: [{ name: 'site', value: `${said}, front` }],
          })
          const state = { version: 1, data: { given: { site: said } } }
          await store.turns.finish(made?.id ?? 0, 'site show', shown, state)
          const planned = { personId, command: 'rate', reply: shown, dueAtMs: NOON_MS }
          await store.deliveries.plan({ ...planned, nonce: `told in ${key}` }, NOON_MS)
        }
      })
    }
    const newest = async (database: Database, key: string) => {
      const [turn] = await see(database, key, (store) => store.turns.list({ limit: 1 }))
      return turn
    }

    test('a customer’s name, property and address give way, whatever the capitals; the rest of the answer stays', async () => {
      const { database, ask, mentions } = await open()
      await answered(database, 'for QUILLON  invented at Invented Row 5')
      const [said] = await ask({ kind: 'customer', site: 'Invented Row 5' })
      expect(said).toMatch(/^Taken out, and in 2 earlier answers and notes\. /)
      expect([...(await mentions('quillon')), ...(await mentions('invented row'))]).toEqual([])
      const own = await newest(database, 'test:1')
      const place = own?.reply.title.with?.words
      expect(place).toMatch(/^for Removed property (\d+) at Removed property \1$/)
      expect(own?.reply.facts).toEqual([{ name: 'site', value: `${place}, front` }])
      expect(own?.asked).toContain('sandy soil')
      expect((await newest(database, 'test:2'))?.asked).toContain('QUILLON')
    })

    test('a person’s name gives way, and words that only look like it do not', async () => {
      const { database, ask, mentions } = await open()
      await answered(database, 'Ada Test mixed, said ada test; Ada Tester and Nevada Test did not')
      await ask({ kind: 'person', key: 'ada' })
      const own = await newest(database, 'test:1')
      expect(own?.reply.title.with?.words).toMatch(
        /^Removed person (\d+) mixed, said Removed person \1; Ada Tester and Nevada Test did not$/,
      )
      expect((await mentions('ada tester')).map((line) => line.split(' ')[0])).toEqual(['turns'])
    })

    test('what a person or a property was called before gives way too', async () => {
      const { database, ask, mentions } = await open()
      await answered(database, 'Ada Test was with Quillon Invented at Invented Row 5')
      await write(database, async (db) => {
        const store = crewStore(db, (await findCrew(db, 'test:1'))?.id ?? 0)
        await aPerson(store, { name: 'Ada T.' })
        const [site] = await store.sites.list()
        const details = SiteDetails.parse({ ...site?.details, customer: 'Nobody Invented' })
        await store.sites.update(site?.id ?? 0, { name: 'Corner', address: '', details })
      })
      await ask({ kind: 'person', key: 'ada' })
      await ask({ kind: 'customer', site: 'Corner' })
      const own = await newest(database, 'test:1')
      expect(own?.reply.title.with?.words).toMatch(
        /^Removed person (\d+) was with Removed property (\d+) at Removed property \2$/,
      )
      expect([...(await mentions('ada test')), ...(await mentions('quillon'))]).toEqual([])
    })

    test('a name of one word is taken out as it is written only', async () => {
      const { database, ask } = await open()
      await write(database, async (db) => {
        const crew = await findCrew(db, 'test:1')
        await aPerson(crewStore(db, crew?.id ?? 0), { key: '150339628550219373', name: 'Sandy' })
      })
      await answered(database, 'Sandy, <@150339628550219373>, found sandy soil')
      await ask({ kind: 'person', key: '150339628550219373' })
      const own = await newest(database, 'test:1')
      expect(own?.reply.title.with?.words).toMatch(
        /^Removed person (\d+), <@Removed person \1>, found sandy soil$/,
      )
    })
  })

  test('in a record stays while it must be kept, then goes, and the chain holds', async () => {
    const { database, ask } = await open()
    const early = ask({ kind: 'record', number: 1 }, NOON_MS + YEAR_MS)
    await expect(early).rejects.toThrow(
      /^Cannot clear record 1: it has to be kept for \d+ years, until 20\d\d-05-04$/,
    )
    const [said] = await ask({ kind: 'record', number: 1 }, NOON_MS + 60 * YEAR_MS)
    expect(said).toMatch(/^[1-9]\d* personal values of record 1 taken out; the chain holds$/)
    expect((await readOnly(database, chainHeads)).flatMap(({ breaks }) => breaks)).toEqual([])
    const [own] = await see(database, 'test:1', (store) => store.records.linksOf(1))
    const [other] = await see(database, 'test:2', (store) => store.records.linksOf(1))
    expect(own?.entry.sealed.kept).toEqual({})
    expect(Object.keys(other?.entry.sealed.kept ?? {}).length).toBeGreaterThan(0)
  })

  test('in a record stays as long as the crew itself has set, where that is longer than any rule', async () => {
    const { database, ask } = await open()
    await write(database, async (db) => {
      const crew = await findCrew(db, 'test:1')
      if (crew === undefined) throw new Error('the crew is gone')
      await updateCrew(db, crew.id, { settings: { ...crew.settings, keepYears: 30 } })
    })
    await expect(ask({ kind: 'record', number: 1 }, NOON_MS + 25 * YEAR_MS)).rejects.toThrow(
      'Cannot clear record 1: it has to be kept for 30 years, until 2056-05-04',
    )
  })

  test('in a record stays while its incident is not dealt with, however old it is', async () => {
    const { database, ask } = await open()
    const { number, incident } = await write(database, async (db) => {
      const store = crewStore(db, (await findCrew(db, 'test:1'))?.id ?? 0)
      const personId = (await store.people.find('ada'))?.id ?? 0
      const { id: turnId } = await store.turns
        .create({ requestId: 'hurt', personId, command: 'log', asked: {}, atMs: NOON_MS, day: '2026-05-04' })
        .then((made) => made ?? { id: 0 })
      const incident = await store.incidents.open({ personId, turnId, words: 'eye', createdAtMs: NOON_MS })
      const unusual = { happened: true, words: english('splashed an eye'), incidentId: incident }
      return { number: await keepRecord(store, { personId, record: { unusual } }), incident }
    })
    const late = NOON_MS + 60 * YEAR_MS
    await expect(ask({ kind: 'record', number }, late)).rejects.toThrow('its incident is still open')
    await write(database, async (db) => {
      const store = crewStore(db, (await findCrew(db, 'test:1'))?.id ?? 0)
      await store.incidents.close(incident, (await store.people.find('ada'))?.id ?? 0, NOON_MS)
    })
    expect((await ask({ kind: 'record', number }, late))[0]).toMatch(/taken out; the chain holds$/)
  })

  test('that is not there is said in a sentence, and so is a crew that was not named', async () => {
    const { database, ask } = await open()
    await expect(ask({ kind: 'person', key: 'nobody' })).rejects.toBeInstanceOf(PrivacyError)
    await expect(ask({ kind: 'customer', site: 'nowhere' })).rejects.toBeInstanceOf(PrivacyError)
    await expect(ask({ kind: 'record', number: 7 })).rejects.toThrow('Cannot find record 7 in this crew')
    await expect(privacy(database, { kind: 'list', words: 'x' }, { nowMs: NOON_MS })).rejects.toThrow(
      'Cannot tell which crew: --crew is one of test:1, test:2',
    )
    const empty = await place.open()
    await expect(privacy(empty, { kind: 'list', words: 'x' }, { nowMs: NOON_MS })).rejects.toThrow(
      'No crew has written anything here yet',
    )
  })
})
