import { expect, onTestFinished, test } from 'vitest'
import { momentIn } from '#src/desk/clock.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew, updateCrew } from '#src/store/crews.ts'
import { openDatabase } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { planReminders } from '#src/visits/plan-reminders.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aCrewOfLooks, mondayToFriday } from './crew-of-looks.ts'

const at = (time: string, day = '2026-05-18') => momentIn('America/Chicago', day, time)
const reportError = (error: unknown) => {
  throw error
}

test('crews for which nothing is to be planned take no transaction each, until there may be', async () => {
  let statements = 0
  const pauseMs = () => {
    statements += 1
    return 0
  }
  const database = await openDatabase({ engine: 'sqlite', path: ':memory:', pauseMs }, 'practice')
  onTestFinished(() => database.close())
  for (const key of ['test:1', 'test:2', 'test:3']) await aCrewOfLooks(database, ['2026-05-04'], { key })
  const look = async (nowMs: number) => {
    const before = statements
    const planned = await planReminders({ database, nowMs, reportError })
    return { planned, statements: statements - before }
  }
  const first = await look(at('06:00'))
  const quiet = await look(at('06:00') + 15_000)
  expect(first.planned).toBe(0)
  expect(first.statements).toBeGreaterThan(quiet.statements + 9)
  // Begin, looks, crews, people, commit: for three crews as for three thousand.
  expect(quiet).toEqual({ planned: 0, statements: 5 })
  expect((await look(at('07:00'))).planned).toBe(3)
  // What was planned has changed the looks, so they are looked at once more.
  await look(at('07:00') + 15_000)
  expect(await look(at('07:00') + 30_000)).toEqual({ planned: 0, statements: 5 })
})

eachEngine('a crew that was found quiet', (place) => {
  const aQuietCrew = async () => {
    const looking = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    const { database } = looking
    expect(await planReminders({ database, nowMs: at('06:00'), reportError })).toBe(0)
    return looking
  }
  const plannedAt = (database: Parameters<typeof crewNow>[0], nowMs: number) =>
    planReminders({ database, nowMs, reportError })

  test('hears at its new hour when its hours are changed meanwhile', async () => {
    const { database } = await aQuietCrew()
    const crew = await crewNow(database)
    await write(database, (db) =>
      updateCrew(db, crew.id, { settings: { ...crew.settings, startsAt: '06:10' } }),
    )
    expect(await plannedAt(database, at('06:10'))).toBe(1)
  })

  test('hears when a look is handed to somebody else meanwhile', async () => {
    const { database, ids } = await aQuietCrew()
    const crew = await crewNow(database)
    await write(database, async (db) => {
      const { people, visits } = crewStore(db, crew.id)
      const owner = await people.get(ids.owner)
      if (owner === undefined) throw new Error('The owner is gone')
      await visits.update(ids.visits[0] ?? 0, { ownerId: ids.lead }, at('06:01'))
    })
    expect(await plannedAt(database, at('07:00'))).toBe(1)
  })

  test('hears of a look that another process adds after its hours have begun', async () => {
    const { database, store, ids } = await aQuietCrew()
    expect(await plannedAt(database, at('08:00'))).toBe(1)
    expect(await plannedAt(database, at('08:01'))).toBe(0)
    const kept = await store((own) => own.visits.get(ids.visits[0] ?? 0))
    if (kept === undefined) throw new Error('The look is gone')
    expect(await plannedAt(database, at('08:02'))).toBe(0)
    const { id: _, ...again } = kept
    await store(async (own) => {
      const lead = { ...again, recordNumber: null, walkId: null, ownerId: ids.lead }
      await own.visits.create({ ...lead, plan: unheard(again.plan) }, at('08:03'))
    })
    expect(await plannedAt(database, at('08:04'))).toBe(1)
  })

  test('hears after a clock that ran ahead was put back, and once', async () => {
    const { database } = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    expect(await plannedAt(database, at('18:00', '2026-05-17'))).toBe(0)
    expect(await plannedAt(database, at('12:00', '2026-05-16'))).toBe(0)
    expect(await plannedAt(database, at('07:00'))).toBe(1)
    expect(await plannedAt(database, at('07:00') - 3_600_000)).toBe(0)
    expect(await plannedAt(database, at('07:01'))).toBe(0)
  })

  test('hears once from several processes, whichever looks first', async () => {
    const address = await place.address()
    const [one, other] = [await place.open(address), await place.open(address)]
    await aCrewOfLooks(one, ['2026-05-04'], { workdays: mondayToFriday })
    for (const nowMs of [at('06:00'), at('06:30')])
      for (const database of [one, other]) expect(await plannedAt(database, nowMs)).toBe(0)
    const planned = [await plannedAt(other, at('07:00')), await plannedAt(one, at('07:00'))]
    expect(planned).toEqual([1, 0])
  })
})

async function crewNow({ db }: Awaited<ReturnType<typeof openDatabase>>) {
  const crew = await findCrew(db, 'test:1')
  if (crew === undefined) throw new Error('The crew is gone')
  return crew
}

/** The plan as it was before anybody was told. */
function unheard<Plan extends { readonly looks: readonly object[] }>(plan: Plan): Plan {
  return { ...plan, looks: plan.looks.map((look) => ({ ...look, reminders: [] })) }
}
