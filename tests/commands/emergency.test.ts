import { describe, expect, test } from 'vitest'
import { openRoom } from './open-room.ts'

const mix =
  '/mix product:"Bellstrake 3 L" rate:"3 pt/acre" line:cool-spring tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn" spots:other'
const stopped =
  'Mixing and new logs wait until somebody marks the emergency as dealt with. The person comes first.'

describe('/emergency', () => {
  test('911 and Poison Help come first, then the spill steps', async () => {
    const { screen, outcome, safety } = await (await openRoom()).as('bex')('/emergency')
    expect(outcome).toBe('answer')
    expect(screen.slice(1, 3)).toEqual([
      '911: passed out, not breathing, or shaking',
      '1-800-222-1222: Poison Help, day and night, for anybody who swallowed, breathed or got product on skin or in eyes',
    ])
    expect(screen.findIndex((line) => line.startsWith('Spill, 1'))).toBeGreaterThan(2)
    expect(safety[0]).toMatch(/^911 first/)
  })

  test('names the product that this person mixed last, its first aid and where they are', async () => {
    const bex = (await openRoom()).as('bex')
    await bex(mix)
    const { lines } = await bex('/emergency')
    expect(lines.slice(2, 5)).toEqual([
      'You are at: 12 Plimmet Street, Fallowquay, NC 00012',
      'Last mixed: Bellstrake 3 L',
      expect.stringMatching(/eye/i),
    ])
  })

  test('after an exposure mixing stops, until a person says that it is dealt with', async () => {
    const bex = (await openRoom()).as('bex')
    await bex('/emergency')
    expect((await bex('> 1')).choices).toEqual(['It is dealt with'])
    expect((await bex(mix)).screen).toEqual([`refusal: ${stopped}`])
    expect((await bex('/rate amount:"3 pt/acre" to:"fl oz/1000 ft2"')).outcome).toBe('answer')
    await bex('/emergency')
    expect((await bex('> 1')).screen).toEqual([
      'answer: Noted: Bex Yolvarren says it is dealt with',
      'Mixing and new logs go on. Tell your lead what happened.',
    ])
    expect((await bex(mix)).outcome).not.toBe('refusal')
  })

  test('one person’s exposure does not stop the others', async () => {
    const room = await openRoom()
    await room.as('bex')('/emergency', '> 1')
    expect((await room.as('nila')(mix)).title).not.toBe(stopped)
  })
})

describe('words of exposure in any text', () => {
  test.each([
    ['a weed', '/mix rate:"3 pt/acre" tank:"2 gal" output:"1 gal/1000 ft2" weed:"got it in my eye"'],
    ['Spanish', '/mix rate:"3 pt/acre" tank:"2 gal" weed:"me cayó en el ojo"'],
    ['a wrong option', '/site show site:"feel dizzy"'],
    ['a line that is no command', 'got it in my eye'],
  ])('%s brings the card and stops mixing', async (_where, line) => {
    const bex = (await openRoom()).as('bex')
    const { outcome, lines } = await bex(line)
    expect(outcome).toBe('hold')
    expect(lines[0]).toBe('911: passed out, not breathing, or shaking')
    expect((await bex(mix)).title).toBe(stopped)
  })

  test.each([['grass looks sick'], ['leaf burn'], ['zacate quemado']])('“%s” does not', async (words) => {
    const bex = (await openRoom()).as('bex')
    const { title } = await bex(`/mix rate:"3 pt/acre" tank:"2 gal" output:"1 gal/1000 ft2" weed:"${words}"`)
    expect(title).toBe('65 mL of the product (2.198 fl oz)')
  })

  test('first aid copied from a label is no alarm', async () => {
    const lead = (await openRoom()).as('odalys')
    await lead(
      '/label add',
      '= name:"Demo Nine" formulation:SL registration:9999999-12 actives:"demolin 2 lb ai/gal" signal:CAUTION',
      '= line:"Demo weeds: 1 fl oz per 1,000 sq ft." turfs:"tall fescue" rates:"1 fl oz/1000 ft2"',
      '> 2',
    )
    const kept = await lead(
      '= mixing:Gloves spraying:Gloves first_aid:"If in eyes: rinse. If swallowed: call." label:"D-9 2026-01-15"',
    )
    expect(kept.title).toBe('Demo Nine is kept and waits for a second person')
  })

  test('a word without end is read and forgotten in a moment', async () => {
    const bex = (await openRoom()).as('bex')
    const { outcome } = await bex(`/mix rate:"${'9'.repeat(9_000)}" tank:"${'qa'.repeat(3_000)}"`)
    expect(outcome).toBe('refusal')
  }, 2_000)
})
