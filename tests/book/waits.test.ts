import { describe, expect, test } from 'vitest'
import { readWaits, waitLimits, waitLines, waitsForm } from '#src/book/waits.ts'
import type { Limits } from '#src/label/limits.ts'
import { openRoom } from '#tests/commands/open-room.ts'
import { loadDemo } from '../../data/demo/load.ts'

describe('what has to wait, as it is typed', () => {
  test.each<[string, string, object]>([
    ['mowing', '2 days before; 3 days after', { mowing: { daysBefore: 2, daysAfter: 3 } }],
    ['mowing', '2 días antes, 1 semana después', { mowing: { daysBefore: 2, daysAfter: 7 } }],
    ['water', 'no water for 24 hours', { watering: { rule: 'hold off', hours: 24 } }],
    ['water', 'water in within 24 h', { watering: { rule: 'water in', hours: 24 } }],
    ['water', 'water it in', { watering: { rule: 'water in' } }],
    [
      'water',
      'sin riego 12 horas; sin lluvia 4 horas',
      { watering: { rule: 'hold off', hours: 12 }, rainFree: { hours: 4 } },
    ],
    ['water', 'rain-free 1.5 hours', { rainFree: { hours: 1.5 } }],
    ['keep_off_time', '24 hours', { keepOff: { hours: 24 } }],
    ['keep_off_time', 'until dry', { keepOff: { untilDry: true } }],
    ['keep_off_time', '4 horas; hasta que seque', { keepOff: { hours: 4, untilDry: true } }],
    ['planting', 'seed 4 weeks; sod 60 days', { seedAfter: { days: 28 }, sodAfter: { days: 60 } }],
    ['planting', 'semilla 28 días; césped 60 días', { seedAfter: { days: 28 }, sodAfter: { days: 60 } }],
  ])('%s: %s', (name, typed, wanted) => {
    const read = readWaits({ [name]: typed })
    expect(read).toMatchObject({ ok: true, limits: wanted })
  })

  test.each([
    ['mowing', '2 days'],
    ['mowing', 'soon after'],
    ['water', 'no water'],
    ['water', '24 hours'],
    ['keep_off_time', 'a while'],
    ['planting', '28 days'],
  ])('%s: %s is asked again', (name, typed) => {
    expect(readWaits({ [name]: typed })).toMatchObject({ ok: false, problems: [{ with: { text: typed } }] })
  })

  test('the form shows every entry of the demo book so that it reads back the same', () => {
    for (const entry of loadDemo().book) {
      const fields = Object.fromEntries(waitsForm(entry).fields.map(({ name, value }) => [name, value ?? '']))
      const read = readWaits(fields)
      const bare = (limits: Readonly<Partial<Record<string, unknown>>>) =>
        JSON.parse(
          JSON.stringify(Object.fromEntries(waitLimits.map((name) => [name, limits[name]])), (key, value) =>
            key === 'line' || key === 'page' ? undefined : value,
          ),
        ) as unknown
      expect(read.ok && bare(read.limits)).toEqual(bare(entry.limits))
      const shown = waitLines(entry.limits as Limits).length
      expect(shown > 0).toBe(waitLimits.some((name) => entry.limits[name] !== undefined))
    }
  })
})

describe('in the label book', () => {
  test('a changed wait is in force at once, and keeps the words of those that stand', async () => {
    const room = await openRoom()
    const lead = room.as('odalys')
    const asked = await lead('/label revise product:"Bellstrake 3 L" what:waits')
    expect(asked.fields).toEqual(['mowing', 'water', 'keep_off_time', 'planting', 'label'])
    const kept = await lead('= water:"no water 12 hours; rain-free 6 hours" label:"B-9 2026-04-01"')
    expect(kept.screen[0]).toBe('answer: Bellstrake 3 L is in force')
    expect(kept.screen).toContain('No water for 12 hours')
    await room.store(async (store) => {
      const limits = (await store.labels.findByName('Bellstrake 3 L'))?.live?.body.limits
      expect(limits?.mowing).toMatchObject({ daysAfter: 2, page: '4' })
      expect(limits?.watering).toEqual({ rule: 'hold off', hours: 12, line: 'no water 12 hours' })
    })
  })

  test('what cannot be read brings the form back, filled in', async () => {
    const room = await openRoom()
    const lead = room.as('odalys')
    await lead('/label revise product:"Bellstrake 3 L" what:waits')
    const again = await lead('= mowing:"2 days" label:"B-9 2026-04-01"')
    expect([again.screen[0], again.fields.length]).toEqual([
      'question: Not saved yet: something needs another look',
      5,
    ])
    expect(again.screen[1]).toBe('Cannot read “2 days”. Write it like: 2 days before; 2 days after.')
  })

  test('a new product takes them in a step of its own', async () => {
    const lead = (await openRoom()).as('odalys')
    const kept = await lead(
      '/label add',
      '= name:"Demo Ten" formulation:SL registration:9999999-13 actives:"demolin 2 lb ai/gal, group 98" signal:CAUTION',
      '= line:"Demo weeds in tall fescue: 1 fl oz per 1,000 sq ft." turfs:"tall fescue" rates:"1 fl oz/1000 ft2"',
      '> 3',
      '= mowing:"1 day after" keep_off_time:"until dry" planting:"seed 28 days"',
      '> 2',
      '= mixing:"Gloves" spraying:"Gloves" label:"D-10 2026-01-15"',
    )
    expect(kept.screen).toEqual(
      expect.arrayContaining([
        'No mowing 1 day after',
        'Keep people and pets off until it has dried.',
        'No seed for 28 days',
      ]),
    )
  })
})
