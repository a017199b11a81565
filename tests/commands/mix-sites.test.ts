import { describe, expect, test } from 'vitest'
import { openRoom } from './open-room.ts'

const MIX = '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" output:"1 gal/1000 ft2" spots:other'
const TWO = 'site:"Plimmet Street House / Front lawn; Ospelwick School / Entrance lawn"'

describe('one mix for the day’s sites', () => {
  test('each is checked, and the answer says for which', async () => {
    const room = await openRoom()
    const said = await room.as('bex')(`${MIX} ${TWO}`)
    expect(said.outcome).toBe('answer')
    expect(said.lines).toContain(
      'Checked for Plimmet Street House and Ospelwick School: the strictest rule holds.',
    )
  })

  test('what one of them forbids is refused for all, with its name', async () => {
    const room = await openRoom()
    const said = await room.as('bex')(
      `${MIX} site:"Plimmet Street House / Front lawn; Harbor Cottages / Path strip"`,
    )
    expect(['hold', 'refusal']).toContain(said.outcome)
    expect(said.title).toMatch(/^Harbor Cottages: /)
  })

  test('the area of one is asked for that one alone', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const asked = await bex(`${MIX} site:"Plimmet Street House / Front lawn; Ospelwick School"`)
    expect(asked.choices).toEqual(['Soccer field', 'Entrance lawn'])
    expect((await bex('> 2')).outcome).toBe('answer')
  })

  test('its log offers them first, in the order of typing', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await bex(`${MIX} ${TWO}`, '> 1')
    const site = await bex('> 1')
    expect(site.title).toBe('Where did it go on?')
    expect(site.choices.slice(0, 2)).toEqual(['Plimmet Street House', 'Ospelwick School'])
  })

  test('too many, or an area beside them, is a clear refusal', async () => {
    const room = await openRoom()
    const said = await room.as('bex')(`${MIX} ${TWO} area:"Front lawn"`)
    expect(said).toMatchObject({ outcome: 'refusal' })
    expect(said.title).toContain('semicolons')
  })
})
