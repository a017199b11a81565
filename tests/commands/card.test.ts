import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { pagesOf } from '#src/card/pages.ts'
import { drawPicture } from '#src/pictures/draw-picture.ts'
import { loadWords } from '#src/words/load.ts'
import { speak } from '#src/words/speak.ts'
import { onScreen, openRoom } from './open-room.ts'

describe('/card', () => {
  test('one product at half a tank and a full one, in the hands of who asks', async () => {
    const bex = (await openRoom()).as('bex')
    const line = '/card sprayer:"Hand can" product:"Tarnbrask 75 WDG"'
    expect(await onScreen(bex, line)).toMatchInlineSnapshot(`
      "
      /card sprayer:"Hand can" product:"Tarnbrask 75 WDG"
          answer: One rate for Hand can in the hands of Bex Yolvarren
          Good until Thu, Apr 22, 2027. Throw it away after that day.
          3.2 g half (1 gal) and 6.4 g full (2 gal): Tarnbrask 75 WDG at 0.113 oz wt/1000 ft², with 9 mL and 18.5 mL of nonionic surfactant
          The label wins. Read it before you mix, and ask first which grass, which ground and how long ago.
      "
    `)
    // Common practice, no source: 0.113 oz per gallon at one gallon per 1,000 ft², with a scale of 0.1 g.
    expect((await bex(line)).facts).toMatchObject({
      output: '1 gal/1000 ft2',
      lines: 1,
      left_off: 0,
      line_1: 'Tarnbrask 75 WDG',
      half_1: '3.2 g',
      full_1: '6.4 g',
    })
  })

  test('the same amounts as /mix gives', async () => {
    const bex = (await openRoom()).as('bex')
    for (const who of ['Bex Yolvarren', 'Nila Quessarn', 'Teo Almendrique']) {
      const card = await bex(`/card sprayer:"Hand can" product:"Tarnbrask 75 WDG" for:"${who}"`)
      for (const [part, fact] of [
        ['1/2', 'half_1'],
        ['1', 'full_1'],
      ] as const) {
        const mixed = await bex(
          `/mix product:"Tarnbrask 75 WDG" sprayer:"Hand can" tank:"${part}" for:"${who}"`,
        )
        expect(card.facts[fact]).toBe(mixed.facts.concentrate_tool)
      }
    }
  })

  test('the whole book: what is held or refused is named with its reason', async () => {
    const bex = (await openRoom()).as('bex')
    const { lines, facts, shown, outcome } = await bex('/card sprayer:"Hand can"')
    expect(outcome).toBe('answer')
    expect(lines.filter((line) => line.startsWith('Not on the card'))).toMatchInlineSnapshot(`
      [
        "Not on the card: Harmottle 0.5 G. It is a granule: spread, not mixed.",
        "Not on the card: Pellimoor 80 WP. No: at least 2 gal/1000 ft² of spray. This is 1 gal/1000 ft².",
        "Not on the card: Yarvendel 50 WG. This entry was last held against its label on Tue, Feb 18, 2025. That is too long ago: a lead looks first.",
      ]
    `)
    // An output of 22 April 2026 holds a year; the entry looked at longest ago 345 days ago holds 365 + 60 from then.
    expect([facts.good_until, facts.lines, facts.left_off]).toEqual(['2026-06-08', 14, 3])
    expect(shown.answered.reply.files).toHaveLength(4)
    expect(shown.answered.reply.audience).toBe('person')
  })

  test('a large tank also has the gallon, at both ends of a rate', async () => {
    const marl = (await openRoom()).as('marl')
    expect(await onScreen(marl, '/card sprayer:"Gun tank" product:"Fennowick 4 EC"')).toMatchInlineSnapshot(`
      "
      /card sprayer:"Gun tank" product:"Fennowick 4 EC"
          answer: 2 rates for Gun tank in the hands of Marl Whitstrop
          Good until Sun, Apr 25, 2027. Throw it away after that day.
          18.5 to 27.5 fl oz half (50 gal), 11 to 16 mL in 1 gal, and 36.5 to 55 fl oz full (100 gal): Fennowick 4 EC at 2 to 3 pt/acre (“Before emergence, first treatment: 2 to 3 pt per acre.”)
          14 to 18 fl oz half (50 gal), 8 to 10.5 mL in 1 gal, and 27.5 to 36.5 fl oz full (100 gal): Fennowick 4 EC at 1.5 to 2 pt/acre (“Repeat treatment 8 weeks later: 1.5 to 2 pt per acre.”)
          The label wins. Read it before you mix, and ask first which grass, which ground and how long ago.
      "
    `)
  })

  test('no card without an output that the crew trusts', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/card sprayer:Backpack for:"Hob Stowbrimmer"',
        '/card sprayer:"Gun tank"',
        '/card sprayer:"Hand can" product:"Yarvendel 50 WG"',
        '/card sprayer:Hnd',
        '> 1',
      ).then((text) => text.split('\n').slice(0, 16).join('\n')),
    ).toMatchInlineSnapshot(`
      "
      /card sprayer:Backpack for:"Hob Stowbrimmer"
          hold: Hob Stowbrimmer measured this output 410 days ago; the crew’s limit is 365 days. Measure again first.
          A card needs a measured output. Measure with water, then ask again.
      /card sprayer:"Gun tank"
          hold: No output measured for Bex Yolvarren with Gun tank
          A card needs a measured output. Measure with water, then ask again.
      /card sprayer:"Hand can" product:"Yarvendel 50 WG"
          hold: Nothing can go on a card for Hand can
          Not on the card: Yarvendel 50 WG. This entry was last held against its label on Tue, Feb 18, 2025. That is too long ago: a lead looks first.
      /card sprayer:Hnd
          question: Which sprayer is “Hnd”?
          > 1 Hand can
      > 1
          answer: 14 rates for Hand can in the hands of Bex Yolvarren
          Good until Mon, Jun 8, 2026. Throw it away after that day."
    `)
  })

  test('each page is an A5 sheet on its side, in black on white', async () => {
    const { shown } = await (await openRoom()).as('bex')('/card sprayer:"Hand can"')
    const words = loadWords()
    for (const { from } of shown.answered.reply.files) {
      if (!('picture' in from)) throw new Error('A page is a picture')
      const say = (text: Parameters<typeof speak>[1]) =>
        speak(words, text, { locale: 'en', escape: (typed) => typed })
      const { bytes, alt } = await drawPicture(from.picture, from.data, { say, theme: 'dark' })
      const image = sharp(bytes)
      const { width = 0, height = 0 } = await image.metadata()
      // A5 is 210 by 148 mm. Source: ISO 216.
      expect(width / height).toBeCloseTo(210 / 148, 1)
      const { channels } = await image.stats()
      expect(channels.slice(0, 3).every(({ mean }) => mean > 200)).toBe(true)
      expect(alt).toContain('Good until Mon, Jun 8, 2026')
      expect(alt).toContain('The label wins.')
    }
  })
})

describe('pages', () => {
  test.each([
    [0, 3, [[0, 3]]],
    [1, 6, [[1, 6]]],
    [4, 0, [[4, 0]]],
    [
      4,
      1,
      [
        [4, 0],
        [0, 1],
      ],
    ],
    [
      6,
      4,
      [
        [4, 0],
        [2, 4],
      ],
    ],
    [
      6,
      5,
      [
        [4, 0],
        [2, 0],
        [0, 5],
      ],
    ],
    [
      3,
      12,
      [
        [3, 0],
        [0, 10],
        [0, 2],
      ],
    ],
  ])('%i rows and %i lines on what is not on the card', (rows, lines, expected) => {
    const pages = pagesOf(
      Array.from({ length: rows }, (_, at) => at),
      Array.from({ length: lines }, (_, at) => at),
    )
    expect(pages.map((page) => [page.rows.length, page.leftOff.length])).toEqual(expected)
    expect(pages.flatMap((page) => page.rows)).toHaveLength(rows)
    expect(pages.flatMap((page) => page.leftOff)).toHaveLength(lines)
  })
})
