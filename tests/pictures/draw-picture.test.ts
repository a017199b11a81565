import sharp from 'sharp'
import { describe, expect, test } from 'vitest'
import { ZodError } from 'zod'
import { drawPicture, pictureNames, pictureSvg } from '#src/pictures/draw-picture.ts'
import { PAGE_WIDTH } from '#src/pictures/page.ts'
import { loadWords } from '#src/words/load.ts'
import { speak } from '#src/words/speak.ts'
import { readSvg } from './read-svg.ts'
import { samples } from './samples.ts'

const words = loadWords()
const missing: string[] = []
const say = (text: Parameters<typeof speak>[1]) =>
  speak(words, text, { locale: 'en', escape: (typed) => typed, onMissing: ({ id }) => missing.push(id) })
const light = { say, theme: 'light' } as const
const sample = (name: string): Record<string, unknown> => {
  return Object.fromEntries(samples)[name] as Record<string, unknown>
}

/** Most are as wide as a phone; one state is a button's picture, and a card is printed on A5. */
const WIDTHS: Readonly<Record<string, number>> = { 'key-state': 480, 'truck-card': 1760, 'photo-sheet': 1440 }

describe('every picture', () => {
  test('has a sample here', () => {
    expect(samples.map(([name]) => name).sort()).toEqual([...pictureNames].sort())
  })

  test.each(samples)('%s is a PNG for a phone, with words for who cannot see it', async (name, data) => {
    const picture = await drawPicture(name, data, light)
    expect(picture).toMatchObject({ name: `${name}.png`, type: 'image/png' })
    const { format, width, height } = await sharp(picture.bytes).metadata()
    expect({ format, width }).toEqual({ format: 'png', width: WIDTHS[name] ?? PAGE_WIDTH })
    expect(height).toBeGreaterThan(200)
    expect(picture.bytes.length).toBeLessThan(200_000)
    expect(picture.alt.length).toBeGreaterThan(20)
    expect(picture.alt.length).toBeLessThanOrEqual(1000)
    expect(missing).toEqual([])
  })

  test.each(samples)('%s is the same text each time, well-formed, and points nowhere', (name, data) => {
    for (const theme of ['light', 'dark'] as const) {
      const { svg } = pictureSvg(name, data, { say, theme })
      expect(pictureSvg(name, data, { say, theme }).svg).toBe(svg)
      const { elements } = readSvg(svg)
      const values = elements
        .flatMap((one) => Object.entries(one.attributes))
        .filter(([key]) => key !== 'xmlns')
      expect(values.filter(([key, value]) => /href|src/.test(key) || /url\(|:\/\//.test(value))).toEqual([])
    }
  })

  test.each(samples)('%s differs between light and dark only in its tones', (name, data) => {
    const shapes = (theme: 'light' | 'dark') =>
      readSvg(pictureSvg(name, data, { say, theme }).svg).elements.map((one) => one.attributes.d)
    expect(shapes('light')).toEqual(shapes('dark'))
  })

  test('a picture drawn twice is kept', async () => {
    const [one, two] = [
      await drawPicture('key-state', sample('key-state'), light),
      await drawPicture('key-state', sample('key-state'), light),
    ]
    expect(two.bytes).toBe(one.bytes)
  })

  test('an unknown picture is refused by name', async () => {
    await expect(drawPicture('no-such', {}, light)).rejects.toThrow(
      'Cannot draw "no-such": the pictures are site-card',
    )
    await expect(drawPicture('toString', {}, light)).rejects.toThrow('Cannot draw "toString"')
  })
})

describe('what is drawn', () => {
  test('a site card shows its areas with their sizes, and typed markup as text', () => {
    const { text } = readSvg(pictureSvg('site-card', sample('site-card'), light).svg)
    expect(text).toContain('Demo: Larkspur Court <3 &')
    expect(text).toContain('"Sons"')
    expect(text).toContain('6,000 ft² Front lawn')
    expect(text).toContain('grass not known yet')
    expect(text).toContain('Two dogs, gate stays shut')
  })

  test('a tank shows amount, fill and order', () => {
    const { text } = readSvg(pictureSvg('tank-fill', sample('tank-fill'), light).svg)
    for (const part of ['3.6 g', '1.5 gal', '2 gal', 'Add 3.6 g, shake']) expect(text).toContain(part)
  })

  test('the fill line stands at its share of the tank', () => {
    const levelOf = (fill: string) => {
      const { svg } = pictureSvg(
        'tank-fill',
        { ...sample('tank-fill'), title: 'x', fill, inTank: '0' },
        light,
      )
      const bold = readSvg(svg).elements.find((one) => one.attributes['stroke-width'] === '9')
      return Number(/M\S+ (\S+?)L/.exec(bold?.attributes.d ?? '')?.[1])
    }
    const [empty, half, full] = [levelOf('0'), levelOf('1'), levelOf('2')]
    expect(half).toBeCloseTo((empty + full) / 2, 1)
    expect(empty).toBeGreaterThan(full)
  })

  test('an area shows its size and the length of every side', () => {
    const { text } = readSvg(pictureSvg('area-shape', sample('area-shape'), light).svg)
    for (const part of ['4,120 ft²', '80 ft', '40 ft', '30 ft', '20 ft', '50 ft', '60 ft', 'bed']) {
      expect(text).toContain(part)
    }
  })

  test('a trend shows first and last day and the values of few points', () => {
    const { text } = readSvg(pictureSvg('trend', sample('trend'), light).svg)
    for (const part of ['1.02', '1.31', 'Mar 2, 2026', 'May 18, 2026', 'Pat, gray tip'])
      expect(text).toContain(part)
  })

  test('a question of the key numbers its states as the buttons do', () => {
    const { svg, alt } = pictureSvg('key-question', sample('key-question'), light)
    const { text } = readSvg(svg)
    for (const part of ['1: a thin clear skin', '3: only a row of hairs', '4: nothing at all']) {
      expect(text).toContain(part)
      expect(alt).toContain(part)
    }
  })

  test.each([
    ['site-card', { areas: [{ name: 'x', squareFeet: -1, turfs: [] }] }],
    ['site-card', { extra: true }],
    ['site-card', { name: { html: '<b>' } }],
    ['tank-fill', { fill: '3' }],
    ['tank-fill', { inTank: '1.9' }],
    ['tank-fill', { full: '0', fill: '0', inTank: '0' }],
    ['tank-fill', { full: 'two' }],
    [
      'area-shape',
      {
        outlines: [
          {
            points: [
              [0, 0],
              [1, 1],
            ],
          },
        ],
      },
    ],
    [
      'area-shape',
      {
        outlines: [
          {
            points: [
              [5, 5],
              [5, 5],
              [5, 5],
            ],
          },
        ],
      },
    ],
    [
      'area-shape',
      {
        outlines: [
          {
            points: [
              [0, 0],
              [Number.NaN, 1],
              [2, 2],
            ],
          },
        ],
      },
    ],
    ['trend', { series: [{ points: [{ day: '2026-13-40', value: '1' }] }] }],
    ['key-question', { states: [{ id: 'feathers', text: 'no such state' }] }],
    ['key-question', { character: '__proto__' }],
    ['key-state', { state: 'none-such' }],
    ['key-compare', { sides: [] }],
  ])('%s refuses %j', async (name, wrong) => {
    await expect(drawPicture(name, { ...sample(name), ...wrong }, light)).rejects.toThrow(ZodError)
  })

  test('one point of a trend, an outline of one line and a text of 400 letters are drawn', async () => {
    const one = { title: 'x', unit: 'gal', series: [{ points: [{ day: '2026-05-01', value: '0' }] }] }
    const flat = {
      area: '0 ft²',
      outlines: [
        {
          points: [
            [0, 0],
            [10, 0],
            [20, 0],
          ],
          lengths: ['a', null, 'b'],
        },
      ],
    }
    const long = { ...sample('site-card'), name: 'W'.repeat(400) }
    for (const [name, data] of [
      ['trend', one],
      ['area-shape', flat],
      ['site-card', long],
    ] as const) {
      expect((await drawPicture(name, data, light)).bytes.length).toBeGreaterThan(1000)
    }
  })
})
