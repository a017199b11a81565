import { describe, expect, test } from 'vitest'
import { asTyped } from '#src/conversation/text.ts'
import { CrewSettings, findCrew } from '#src/store/crews.ts'
import { ada, ben, press, run, stranger } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { openTestDesk } from '#tests/helpers/test-desk.ts'

const numbers = (answers: readonly { readonly number: number | null }[]) =>
  answers.map(({ number }) => number).sort((one, other) => (one ?? 0) - (other ?? 0))

eachEngine('one request is answered once', (place) => {
  const open = async () => openTestDesk(await place.open())

  test('delivered twice, one after the other, it writes once and says the same', async () => {
    const desk = await open()
    const ask = run('note', { text: 'gate' })
    const first = await desk.answer(ask)
    const second = await desk.answer(ask)
    expect(second).toMatchObject({ reply: first.reply, number: 1, turnId: first.turnId, replayed: true })
    expect(first.replayed).toBe(false)
    expect(await desk.written()).toEqual(['gate'])
  })

  test('delivered five times at once, it writes once and says the same', async () => {
    const desk = await open()
    const ask = run('note', { text: 'gate' })
    const answers = await Promise.all([1, 2, 3, 4, 5].map(() => desk.answer(ask)))
    expect(answers.filter(({ replayed }) => !replayed)).toHaveLength(1)
    expect(new Set(answers.map(({ reply, number }) => JSON.stringify([reply, number]))).size).toBe(1)
    expect(await desk.written()).toEqual(['gate'])
  })

  test('the same id from another crew is another request', async () => {
    const desk = await open()
    const ask = run('note', { text: 'gate' })
    await desk.answer(ask)
    expect(await desk.answer({ ...ask, by: stranger })).toMatchObject({ replayed: false, number: 1 })
    expect(await desk.written(stranger)).toEqual(['gate'])
  })

  test('a choice pressed twice is taken once: the second sees what the first got', async () => {
    const desk = await open()
    const question = await desk.answer(run('pick'))
    const first = await desk.answer(press(question, 1))
    const second = await desk.answer(press(question, 1))
    expect(first).toMatchObject({ number: 2, closed: true, replayed: false })
    expect(second).toMatchObject({ number: 2, reply: first.reply, closed: true, replayed: true })
    expect(await desk.written()).toEqual(['once by Ada Test'])
    expect((await desk.answer(run('sum', { a: 1, b: 1 }))).number).toBe(3)
  })

  test('two people who press at the same moment: one is answered, the other sees the same', async () => {
    const desk = await open()
    const question = await desk.answer(run('pick'))
    const answers = await Promise.all([
      desk.answer(press(question, 4)),
      desk.answer(press(question, 4, { by: ben })),
    ])
    expect(numbers(answers)).toEqual([2, 2])
    expect(answers.filter(({ replayed }) => !replayed)).toHaveLength(1)
    expect(await desk.written()).toHaveLength(1)
  })

  test('a choice for repeated use may be pressed again and again, each press once', async () => {
    const desk = await open()
    const question = await desk.answer(run('pick'))
    const again = press(question, 2)
    const answers = [
      await desk.answer(again),
      await desk.answer(again),
      await desk.answer(press(question, 2)),
    ]
    expect(numbers(answers)).toEqual([2, 2, 3])
    expect(answers.map(({ closed }) => closed ?? false)).toEqual([false, false, false])
    expect(await desk.written()).toHaveLength(2)
  })

  test('a hundred questions of two crews at once: no number is missing and none is given twice', async () => {
    const desk = await open()
    const asks = Array.from({ length: 50 }, (_, n) => [
      run('note', { text: `note ${n}` }, { by: n % 2 ? ada : ben }),
      run('note', { text: `note ${n}` }, { by: stranger }),
    ]).flat()
    const answers = await Promise.all(asks.map((ask) => desk.answer(ask)))
    const expected = Array.from({ length: 50 }, (_, n) => n + 1)
    for (const by of [ada, stranger]) {
      const own = answers.filter((_, at) => (asks[at]?.by.crewKey ?? '') === by.crewKey)
      expect(numbers(own)).toEqual(expected)
      expect(await desk.written(by)).toHaveLength(50)
    }
  })

  test('what one request changes of the crew, the next one knows', async () => {
    const desk = await open()
    await desk.answer(run('sum', { a: 1, b: 1 }))
    const names = Array.from({ length: 12 }, (_, n) => `spoon ${n}`)
    await Promise.all(names.map((name) => desk.answer(run('equip', { name }))))
    const crew = await findCrew(desk.database.db, ada.crewKey)
    expect((crew?.settings ?? CrewSettings.parse({})).tools.map(({ name }) => name).sort()).toEqual(
      [...names].sort(),
    )
  })

  describe('a kept answer is shown again', () => {
    test('to whoever may see it, without writing anything', async () => {
      const desk = await open()
      const { turnId, reply } = await desk.answer(run('note', { text: 'gate' }))
      const again = await desk.recall(turnId ?? 0, ben)
      expect(again).toMatchObject({ reply, number: 1, replayed: true })
      expect(reply.title).toEqual(asTyped('gate'))
      expect(await desk.look((store) => store.turns.list({ limit: 10 }))).toHaveLength(1)
      expect(await desk.look((store) => store.people.list())).toHaveLength(1)
    })

    test('but a private one only to who asked, and never to another crew', async () => {
      const desk = await open()
      const { turnId } = await desk.answer(run('fill'))
      expect(await desk.recall(turnId ?? 0, ada)).not.toBeNull()
      expect(await desk.recall(turnId ?? 0, ben)).toBeNull()
      expect(await desk.recall(turnId ?? 0, stranger)).toBeNull()
    })
  })
})
