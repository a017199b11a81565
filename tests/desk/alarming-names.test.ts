import { describe, expect, test } from 'vitest'
import { withoutNames } from '#src/desk/alarming-names.ts'
import { AreaDetails, SiteDetails } from '#src/store/sites.ts'
import { openRoom, type Room, type Said } from '#tests/commands/open-room.ts'

async function roomAt(name: string, address: string): Promise<Room> {
  const room = await openRoom()
  await room.store(async (store) => {
    const siteId = await store.sites.create({ name, address, details: SiteDetails.parse({}) }, 0)
    await store.sites.createArea(
      { siteId, name: 'Front', squareFeet: '1000', details: AreaDetails.parse({ turfs: ['tall-fescue'] }) },
      0,
    )
  })
  return room
}

const isAlarm = ({ shown }: Said) => shown.answered.reply.safety.about.includes('emergency')

describe('names of the crew’s own places', () => {
  test('a property that sounds like an alarm is shown, not answered with the emergency card', async () => {
    const room = await roomAt('Vomit Creek', '12 Dizzy Ave, Noplace TX 75001')
    const shown = await room.as('bex')('/site show site:"Vomit Creek"')
    expect(isAlarm(shown)).toBe(false)
    expect(shown.title).toContain('Vomit Creek')
  })

  test('what happened at such a place is heard all the same', async () => {
    const room = await roomAt('Vomit Creek', '12 Dizzy Ave, Noplace TX 75001')
    const bex = room.as('bex')
    expect(isAlarm(await bex('/key guess:"the weed at Dizzy Ave"'))).toBe(false)
    expect(isAlarm(await bex('/key guess:"got it in my eye at Dizzy Ave"'))).toBe(true)
  })

  test('a new property at such an address can be added', async () => {
    const lead = (await openRoom()).as('lead')
    const asked = await lead('/site add name:"Plum House" address:"7 Dizzy Ln, Noplace TX 75001"')
    expect(isAlarm(asked)).toBe(false)
  })
})

describe('withoutNames()', () => {
  test.each([
    ['Dizzy Ave', ['Dizzy Ave'], ''],
    ['spots on dizzy ave today', ['Dizzy Ave'], 'spots on  ,  today'],
    ['I vomit', ['Vomit'], 'I vomit'],
    ['Vomit', ['Vomit'], ''],
    ['12 Dizzy Ave, Noplace TX 75001', [], ' , , Noplace TX 75001'],
    ['12 Dizzy Ave, I am sick, TX 75001', [], ' , , I am sick, TX 75001'],
    ['12 Dizzy Ave', [], '12 Dizzy Ave'],
  ])('%s', (text, names, left) => {
    expect(withoutNames(text, names)).toBe(left)
  })
})
