import { describe, expect, test } from 'vitest'
import { openRoom } from '#tests/helpers/room.ts'

async function roomWithSite() {
  const room = await openRoom({ as: 'lead' })
  await room.ask('/site add')
  await room.ask('= name:"Row 5" address:"5 Row St, Noplace NC 27000" customer:"Demo Customer" mind:"a dog"')
  await room.ask('= name:"A1" size:"6000 ft2" turfs:"tall fescue"')
  return room
}

describe('changing a site', () => {
  test('with the site alone a form shows what stands, and what was emptied is no longer noted', async () => {
    const { ask } = await roomWithSite()
    const asked = await ask('/site edit site:"Row 5"')
    expect(asked.outcome).toBe('question')
    expect(asked.form?.fields.map(({ name, value }) => [name, value])).toEqual([
      ['name', 'Row 5'],
      ['address', '5 Row St, Noplace NC 27000'],
      ['customer', 'Demo Customer'],
      ['mind', 'a dog'],
      ['elevation', null],
    ])
    const done = await ask('= address:"7 Row St, Noplace NC 27000" mind:"" elevation:"5280 ft"')
    expect(done).toMatchObject({ outcome: 'answer', title: 'Row 5 is changed' })
    expect(done.text).toContain('7 Row St')
    expect(done.text).toContain('Elevation: 5,280 ft')
    expect(done.text).not.toContain('a dog')
  })

  test('in one line, what is not given stays', async () => {
    const { ask } = await roomWithSite()
    const done = await ask('/site edit site:"Row 5" name:"Row Five" elevation:-120')
    expect(done.title).toBe('Row Five is changed')
    expect(done.text).toContain('Mind: a dog')
    expect(done.text).toContain('Elevation: -120 ft')
    expect((await ask('/site show site:"Row Five"')).text).toContain('5 Row St')
  })

  test.each([
    ['an address without a ZIP', 'address:"7 Row St"', 'address', 'ZIP'],
    ['a height of no town', 'elevation:"60000 ft"', 'elevation', 'no elevation'],
  ])('%s comes back to be corrected, and nothing is changed', async (_what, option, field, why) => {
    const { ask } = await roomWithSite()
    const again = await ask(`/site edit site:"Row 5" ${option} mind:"a cat"`)
    expect(again.outcome).toBe('question')
    expect(again.text).toContain(why)
    const typed = again.form?.fields.find(({ name }) => name === field)?.value
    expect(option).toContain(typed)
    expect((await ask('/site show site:"Row 5"')).text).toContain('Mind: a dog')
  })

  test('a form with a mistake is corrected in the next one, what was emptied in it included', async () => {
    const { ask } = await roomWithSite()
    await ask('/site edit site:"Row 5"')
    const again = await ask('= address:"7 Row St" customer:"" mind:""')
    expect(again.text).toContain('ZIP')
    const done = await ask('= address:"7 Row St, Noplace NC 27000" customer:"" mind:""')
    expect(done.title).toBe('Row 5 is changed')
    expect(done.text).toContain('7 Row St')
    expect(done.text).not.toContain('a dog')
  })

  test('the name of another site is taken', async () => {
    const { ask } = await roomWithSite()
    const again = await ask('/site edit site:"Row 5" name:"Ospelwick School"')
    expect(again.text).toContain('already a site')
  })

  test('is for leads', async () => {
    const room = await roomWithSite()
    const refused = await room.as('crew').ask('/site edit site:"Row 5" name:"Mine"')
    expect(refused.outcome).toBe('refusal')
  })
})
