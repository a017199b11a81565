import { randomUUID } from 'node:crypto'
import { expect, onTestFinished, test } from 'vitest'
import { DEMO_CREW_KEY } from '#src/messengers/room/demo.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { readOnly } from '#src/store/transaction.ts'
import { request, tokenOf } from './http.ts'
import { openPage } from './open-page.ts'

test('every Monday that the clock passes has its summary, however often the page looks for what is due meanwhile', async () => {
  const { address, bot, close, errors } = await openPage({ lookEveryMs: 1 })
  onTestFinished(close)
  const token = await tokenOf(address, 'odalys')
  const ask = async (wants: object) => {
    const { status } = await request(address, {
      method: 'POST',
      path: '/ask',
      headers: { 'content-type': 'application/json', origin: address, 'x-room-token': token },
      body: JSON.stringify({ id: randomUUID(), as: 'odalys', wants }),
    })
    expect(status).toBe(200)
  }
  // A product that has run low is told of until it is counted again.
  const product = 'Tarnbrask 75 WDG'
  await ask({ kind: 'run', command: 'stock low', options: { product, amount: '100 g' } })
  await ask({ kind: 'run', command: 'stock count', options: { product, amount: '1 g' } })
  await ask({ kind: 'run', command: 'summary', options: {} })
  for (let fortnight = 1; fortnight <= 6; fortnight++) await ask({ kind: 'wait', days: 14 })

  const told = await readOnly(bot.database, async (db) => {
    const crew = (await findCrew(db, DEMO_CREW_KEY)) ?? expect.fail()
    const { turns, people } = crewStore(db, crew.id)
    const leads = await people.leads()
    const weekly = (await turns.list({ limit: 1000 })).filter(({ command }) => command === 'summary')
    return leads.map(({ id }) => weekly.filter(({ personId }) => personId === id).length)
  })
  // One that was asked for, and one each Monday.
  expect(told).toEqual([13, 12])
  expect(errors).toEqual([])
})
