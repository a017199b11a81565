import { describe, expect, test } from 'vitest'
import { followRecord } from '#src/notices/follow-record.ts'
import { openRoom } from '#tests/helpers/room.ts'
import { change } from '#tests/notices/change.ts'
import { inCrew, logged } from '#tests/notices/logged.ts'
import { product } from '#tests/record/build.ts'

const sprayed = (fluidOunces: string) => ({
  products: [
    product({
      name: 'Bellstrake 3 L',
      form: 'liquid',
      amount: { value: fluidOunces, unit: 'fl oz' },
    }),
  ],
})

describe('stock in the room', () => {
  test('what came in, less what a record used', async () => {
    const room = await openRoom({ as: 'bex' })
    const added = await room.ask('/stock add product:"Bellstrake 3 L" amount:"2.5 gal" packs:2 lot:"DEMO 7"')
    expect([added.outcome, added.title]).toEqual(['answer', '5 gal Bellstrake 3 L written down'])
    await logged(room, sprayed('64'))
    const shown = await room.ask('/stock show product:"bellstrake 3 l"')
    expect(shown.facts.on_hand).toMatchObject({ value: 4.5, unit: 'gal' })
    expect(shown.text.split('\n').slice(0, 4)).toEqual([
      '4.5 gal Bellstrake 3 L',
      'Never counted.',
      'Mon, May 4, 2026: 5 gal came in, lot DEMO 7',
      'Mon, May 4, 2026: 64 fl oz used, R1',
    ])
  })

  test('an ounce is a weight for a dry product and a volume for a liquid', async () => {
    const room = await openRoom()
    const dry = await room.ask('/stock count product:"Tarnbrask 75 WDG" amount:"20 oz"')
    const liquid = await room.ask('/stock count product:"Bellstrake 3 L" amount:"20 oz"')
    expect([dry.facts.on_hand?.unit, liquid.facts.on_hand?.unit]).toEqual(['oz wt', 'fl oz'])
    const wrong = await room.ask('/stock add product:"Tarnbrask 75 WDG" amount:"1 gal"')
    expect([wrong.outcome, wrong.text.includes('give a weight')]).toEqual(['refusal', true])
  })

  test('a record that is amended or voided gives back what it used', async () => {
    const room = await openRoom()
    await room.ask('/stock add product:"Bellstrake 3 L" amount:"5 gal" day:yesterday')
    const number = await logged(room, sprayed('64'))
    const there = async () => (await room.ask('/stock show product:"Bellstrake 3 L"')).facts.on_hand?.value
    expect(await there()).toBe(4.5)
    const amended = (wanted: Parameters<typeof change>[2]) =>
      inCrew(room, async (tools) => {
        await change(tools, number, wanted)
        await followRecord(number, tools)
        await followRecord(number, tools)
      })
    await amended({ changes: sprayed('128') })
    expect(await there()).toBe(4)
    await amended({ voids: true })
    expect(await there()).toBe(5)
  })

  test('a lead hears once of what is low, and again when more has come in and gone', async () => {
    const room = await openRoom()
    await room.ask('/stock count product:"Bellstrake 3 L" amount:"1 gal"')
    await room.ask('/stock low product:"Bellstrake 3 L" amount:"0.75 gal"')
    const notes = async () =>
      (await room.type('+ 1 hour'))
        .filter(({ title }) => title.endsWith('left: low'))
        .map(({ title }) => title)
    await logged(room, { ...sprayed('64'), endedAt: later('10:30') })
    await logged(room, { ...sprayed('10'), endedAt: later('10:40') })
    const first = await notes()
    expect(new Set(first)).toEqual(new Set(['0.5 gal Bellstrake 3 L left: low']))
    expect(await notes()).toEqual([])
    await room.ask('/stock add product:"Bellstrake 3 L" amount:"1 gal"')
    expect(await notes()).toEqual([])
    await logged(room, { ...sprayed('100'), endedAt: later('13:40') })
    expect((await notes()).length).toBe(first.length)
  })

  test('records that used more than there was ask for a count', async () => {
    const room = await openRoom()
    await logged(room, sprayed('64'))
    const shown = await room.ask('/stock show')
    expect([shown.outcome, shown.text.split('\n')[0]]).toEqual([
      'heads-up',
      'Bellstrake 3 L: the records used 64 fl oz more than came in. Count it.',
    ])
  })

  test('only a lead sets the low mark, and "off" takes it away', async () => {
    const room = await openRoom()
    const crew = room.as('bex')
    expect((await crew.ask('/stock low product:"Bellstrake 3 L" amount:"1 gal"')).outcome).toBe('refusal')
    await room.ask('/stock low product:"Bellstrake 3 L" amount:"1 gal"')
    const off = await room.ask('/stock low product:"Bellstrake 3 L" amount:off')
    expect([off.title, off.facts.low?.value]).toEqual(['Bellstrake 3 L: no low mark', false])
  })

  test('nothing comes in tomorrow', async () => {
    const room = await openRoom()
    const refused = await room.ask('/stock add product:"Bellstrake 3 L" amount:"1 gal" day:2026-05-05')
    expect(refused.outcome).toBe('refusal')
  })
})

function later(time: string) {
  return {
    atMs: Date.parse(`2026-05-04T${time}:00-04:00`),
    local: `2026-05-04 ${time}`,
    zone: 'America/New_York',
  }
}
