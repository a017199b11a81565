import { describe, expect, test } from 'vitest'
import { onScreen, openRoom } from './open-room.ts'

const mix = '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2"'

describe('answers by number', () => {
  test('every answer has the crew’s next number', async () => {
    const room = await openRoom()
    const [bex, nila] = [room.as('bex'), room.as('nila')]
    expect([(await bex(mix)).number, (await nila(mix)).number, (await bex('nonsense')).number]).toEqual([
      '1',
      '2',
      '3',
    ])
  })

  test('a person sees their own, a lead the crew’s', async () => {
    const room = await openRoom()
    const [bex, nila, lead] = [room.as('bex'), room.as('nila'), room.as('lead')]
    await bex(mix)
    await nila('/rate amount:"3 pt/acre" to:"fl oz/1000 ft2"')
    expect(await onScreen(bex, '/answers', '/answers person:"Nila Quessarn"')).toMatchInlineSnapshot(`
      "
      /answers
          answer: One answer
          1  Mon, May 4, 2026, 9:00 AM  Bex Yolvarren  /mix: Heads-up, 6.4 g of the product (0.2258 oz wt)
      /answers person:"Nila Quessarn"
          refusal: You can look at your own answers; a lead sees the crew’s
      "
    `)
    expect(
      await onScreen(
        lead,
        '/answers',
        '/answers person:"Nila Quessarn" command:/rate',
        '/answers day:yesterday',
      ),
    ).toMatchInlineSnapshot(`
      "
      /answers
          answer: 4 answers
          4  Mon, May 4, 2026, 9:00 AM  Bex Yolvarren  /answers: No, You can look at your own answers; a lead sees the crew’s
          3  Mon, May 4, 2026, 9:00 AM  Bex Yolvarren  /answers: Answer, One answer
          2  Mon, May 4, 2026, 9:00 AM  Nila Quessarn  /rate: Answer, 1.102 fl oz/1000 ft²
          1  Mon, May 4, 2026, 9:00 AM  Bex Yolvarren  /mix: Heads-up, 6.4 g of the product (0.2258 oz wt)
      /answers person:"Nila Quessarn" command:/rate
          answer: One answer
          2  Mon, May 4, 2026, 9:00 AM  Nila Quessarn  /rate: Answer, 1.102 fl oz/1000 ft²
      /answers day:yesterday
          answer: No answers
      "
    `)
  })

  test('a day that is none is said', async () => {
    const bex = (await openRoom()).as('bex')
    expect((await bex('/answers day:someday')).screen).toEqual([
      'refusal: Cannot read the day “someday”. Write it as 2026-05-04, today or yesterday.',
    ])
  })
})

describe('/last', () => {
  test('brings the newest answer back whole, and those before it by number', async () => {
    const bex = (await openRoom()).as('bex')
    await bex('/rate amount:"3 pt/acre" to:"fl oz/1000 ft2"', mix)
    expect(await onScreen(bex, '/last', '/last number:1')).toMatchInlineSnapshot(`
      "
      /last
          heads-up: No. 2: 6.4 g of the product (0.2258 oz wt)
          Measure with: pocket scale (0.1 g steps)
          Half the water, then the product, stir until it is gone, then fill to the 2 gal mark.
          Covers 2,000 ft² at 1 gal/1000 ft².
          Gives 0.1129 oz wt/1000 ft².
          No label entry was checked: this is your own reading of the label.
          Before that, no. 1: 1.102 fl oz/1000 ft²
      /last number:1
          answer: No. 1: 1.102 fl oz/1000 ft²
          3 pt/acre is the same as 1.102 fl oz/1000 ft².
      "
    `)
    expect((await bex('/last')).facts.concentrate_tool).toBe('6.4 g')
  })

  test('somebody else’s are for leads', async () => {
    const room = await openRoom()
    await room.as('bex')(mix)
    expect((await room.as('nila')('/last person:"Bex Yolvarren"')).outcome).toBe('refusal')
    expect((await room.as('lead')('/last person:"Bex Yolvarren"')).title).toBe(
      'No. 1: 6.4 g of the product (0.2258 oz wt)',
    )
    expect((await room.as('hob')('/last')).screen).toEqual(['question: No answers yet'])
  })
})
