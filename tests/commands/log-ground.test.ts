import { describe, expect, test } from 'vitest'
import { recorded } from '#src/record/not-recorded.ts'
import { fillForms, press } from './fill-log.ts'
import { openRoom, type Said, type Typing } from './open-room.ts'

/** The infield was treated on 24 April; it is mixed for on 4 May. */
const MIX =
  '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Fallowquay Ballpark" area:Infield'

/** Poured, and the log of it as far as how much of the area was treated. */
async function begun(type: Typing, spots: string): Promise<Said> {
  await type(`${MIX} ${spots}`)
  return press(type, await type('> 1', '> 1'), 'Washed, all went well')
}

describe('which ground it was', () => {
  test.each([
    ['other', 'other spots', 'other spots than last time'],
    ['"missed strip"', 'missed strip', 'a strip that was missed last time'],
  ])('said at the mix as %s, is not asked again, and stands in the last look', async (spots, kept, line) => {
    const room = await openRoom()
    const type = room.as('bex')
    const form = await press(type, await begun(type, `spots:${spots}`), 'A strip')
    expect(form.fields).toContain('started_at')
    const look = await fillForms(type, form)
    expect(look.screen).toContain(line)
    await press(type, look, 'Yes, record it')
    const draft = await room.store(async (store) => (await store.drafts.get(1))?.draft)
    expect(recorded(draft?.sameGround)).toBe(kept)
  })

  test('says nothing where the whole area is treated', async () => {
    const room = await openRoom()
    const type = room.as('bex')
    await press(type, await begun(type, 'spots:other'), 'All of it')
    const draft = await room.store(async (store) => (await store.drafts.get(1))?.draft)
    expect(draft?.sameGround).toBeUndefined()
  })

  test('is asked after all once something was put on that area since', async () => {
    const type = (await openRoom()).as('bex')
    const first = await press(type, await begun(type, 'spots:other'), 'A strip')
    await press(type, await fillForms(type, first, { mix_drawn: '1/2 gal' }), 'Yes, record it')
    const next = await press(type, await type('/log mix:M1'), 'Washed, all went well')
    expect((await press(type, next, 'A strip')).choices).toEqual([
      'Same spots as then',
      'Other spots',
      'A strip missed then',
      'Can’t tell',
      'Not now',
    ])
  })

  test('is asked where the log is of another area than the mix', async () => {
    const type = (await openRoom()).as('bex')
    await begun(type, 'spots:other')
    const elsewhere = await type('/log mix:M1 site:"Fallowquay Ballpark" area:Outfield')
    const asked = await press(type, await press(type, elsewhere, 'Washed, all went well'), 'A strip')
    expect(asked.title).toBe(
      'Harmottle 0.5 G went on this area on Sat, Apr 4, 2026. Is it the same ground now?',
    )
  })

  test('pressed wrongly, it is put right before it is kept, and by an amendment after', async () => {
    const room = await openRoom()
    const type = room.as('bex')
    const look = await fillForms(type, await press(type, await begun(type, 'spots:other'), 'A strip'))
    const parts = await press(type, look, 'Correct something')
    const form = await press(type, parts, 'Which ground')
    expect(form.fields).toEqual(['coverage', 'same_ground'])
    const again = await type('= coverage:strip same_ground:"missed strip"')
    expect(again.screen).toContain('a strip that was missed last time')
    await press(type, again, 'Yes, record it')
    await press(type, await type('/record amend record:R1'), 'Which ground')
    const amended = await type('= coverage:spots same_ground:"other spots" why:"it was two spots"')
    expect(amended.screen.slice(1, 3)).toEqual([
      'Coverage: strip → spots',
      'Ground treated before: missed strip → other spots',
    ])
  })
})
