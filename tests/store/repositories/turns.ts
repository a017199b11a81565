import { expect, test } from 'vitest'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aPerson, inStore } from '#tests/helpers/rows.ts'

const answer = (words: string) => reply('answer', asTyped(words))

async function aTurn(store: CrewStore, requestId: string, parts: { command?: string; day?: string } = {}) {
  const { id: personId } = await aPerson(store)
  const { command = 'mix', day = '2026-05-04' } = parts
  const asked = { kind: 'run', requestId }
  return store.turns.create({ requestId, personId, command, asked, atMs: NOON_MS, day })
}

eachEngine('turns', (place) => {
  test('answers are numbered from 1, without a gap', async () => {
    await inStore(place, async ({ store }) => {
      const made = [await aTurn(store, 'a'), await aTurn(store, 'b'), await aTurn(store, 'c')]
      expect(made.map((turn) => turn?.number)).toEqual([1, 2, 3])
    })
  })

  test('the same request makes no second row', async () => {
    await inStore(place, async ({ store }) => {
      const first = await aTurn(store, 'a')
      expect(await aTurn(store, 'a')).toBeUndefined()
      if (first === undefined) throw new Error('no turn')
      await store.turns.finish(first.id, 'mix', answer('kept'), { version: 3, data: { step: 2 } })
      expect(await store.turns.findByRequest('a')).toMatchObject({
        id: first.id,
        number: 1,
        command: 'mix',
        reply: { title: asTyped('kept') },
        state: { version: 3, data: { step: 2 } },
        closedBy: null,
      })
    })
  })

  test('a number given back is given again', async () => {
    await inStore(place, async ({ store }) => {
      await aTurn(store, 'a')
      const taken = await aTurn(store, 'b')
      await store.turns.remove(taken?.id ?? 0)
      expect((await aTurn(store, 'c'))?.number).toBe(2)
    })
  })

  test('only the first who closes a turn has closed it', async () => {
    await inStore(place, async ({ store }) => {
      const turn = await aTurn(store, 'a')
      const id = turn?.id ?? 0
      await store.turns.finish(id, 'mix', answer('question'), null)
      expect(await store.turns.close(id, 'press 1')).toBe(true)
      expect(await store.turns.close(id, 'press 2')).toBe(false)
      expect((await store.turns.get(id))?.closedBy).toBe('press 1')
    })
  })

  test('answers are listed newest first, by person, day and command; unfinished ones are not', async () => {
    await inStore(place, async ({ store }) => {
      const days = ['2026-05-03', '2026-05-04', '2026-05-04']
      for (const [at, day] of days.entries()) {
        const turn = await aTurn(store, `r${at}`, { day, command: at === 2 ? 'rate' : 'mix' })
        await store.turns.finish(turn?.id ?? 0, at === 2 ? 'rate' : 'mix', answer(day), null)
      }
      await aTurn(store, 'unfinished')
      const { id: personId } = await aPerson(store)
      const numbers = async (filter: Parameters<CrewStore['turns']['list']>[0]) =>
        (await store.turns.list(filter)).map(({ number }) => number)
      expect(await numbers({ limit: 10 })).toEqual([3, 2, 1])
      expect(await numbers({ limit: 2 })).toEqual([3, 2])
      expect(await numbers({ limit: 10, day: '2026-05-04' })).toEqual([3, 2])
      expect(await numbers({ limit: 10, command: 'mix' })).toEqual([2, 1])
      expect(await numbers({ limit: 10, personId })).toEqual([3, 2, 1])
      expect(await numbers({ limit: 10, personId: personId + 1 })).toEqual([])
    })
  })

  test('milliseconds and ids come back as numbers', async () => {
    await inStore(place, async ({ db, crew, store }) => {
      await aTurn(store, 'a')
      const turns = db.selectFrom('turns').selectAll().where('crewId', '=', crew.id)
      const row = await turns.executeTakeFirstOrThrow()
      expect(row).toMatchObject({ createdAtMs: NOON_MS, number: 1 })
      expect([row.id, row.crewId, row.personId].map((id) => typeof id)).toEqual(Array(3).fill('number'))
    })
  })
})
