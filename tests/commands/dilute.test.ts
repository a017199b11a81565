import { describe, expect, test } from 'vitest'
import { openRoom } from './open-room.ts'

const ask = async (line: string, ...more: readonly string[]) =>
  (await openRoom()).as('bex')(`/dilute ${line}`, ...more)

describe('/dilute', () => {
  test.each([
    {
      line: 'amount:"100 gal" wanted:"1 %" strength:"4 lb ai/gal"',
      title: '2.085 gal of product',
      source: 'University of Missouri G7510, worked with 8.34 lb/gal',
    },
    {
      line: 'amount:"100 gal" wanted:"0.25 %" strength:"1 lb ai/gal"',
      title: '2.085 gal of product',
      source: 'University of Missouri G7510, worked with 8.34 lb/gal',
    },
    {
      line: 'amount:"10 gal" wanted:"0.5 %" strength:"50 % ai" form:powder',
      title: '0.834 lb of product',
      source: 'by hand: 83.4 lb × 0.5 ÷ 50',
    },
    {
      line: 'amount:"10 gal" wanted:"2 %" strength:"10 %" form:liquid',
      title: '2 gal of product',
      source: 'by hand: 10 gal × 2 ÷ 10',
    },
    {
      line: 'amount:"50 lb" wanted:"2 %" strength:"10 %"',
      title: '10 lb of product',
      source: 'by hand: 50 lb × 2 ÷ 10',
    },
    {
      line: 'amount:"1 gal" wanted:"1000 ppm"',
      title: '3.785 g of active ingredient',
      source: 'one ppm is a milligram in a liter; 3.785411784 L a gallon',
    },
    {
      line: 'amount:"100 gal" wanted:"500 ppm" strength:"50 %"',
      title: '0.8345 lb of product',
      source: 'by hand: 500 mg × 378.54 L ÷ 0.5',
    },
    {
      line: 'amount:"100 gal" wanted:"500 ppm" strength:"4 lb ai/gal"',
      title: '13.35 fl oz of product',
      source: 'by hand: 0.41726 lb ÷ 4 lb × 128 fl oz',
    },
    { line: 'amount:"1000 L" added:"5 g"', title: '5 ppm', source: 'by hand: 5000 mg ÷ 1000 L' },
    {
      line: 'amount:"1000 L" added:"5 g" strength:"80 %"',
      title: '4 ppm',
      source: 'by hand: 4000 mg ÷ 1000 L',
    },
  ])('$line is $title ($source)', async ({ line, title }) => {
    const said = await ask(line)
    expect([said.outcome, said.title]).toEqual(['answer', title])
  })

  test('a percentage of a powder is by weight, of a liquid by volume: the form is asked', async () => {
    const asked = await ask('amount:"10 gal" wanted:"0.5 %" strength:"50 % ai"')
    expect([asked.outcome, asked.choices]).toEqual(['question', ['Dry: weighed', 'Liquid: measured']])
    const liquid = await ask('amount:"10 gal" wanted:"0.5 %" strength:"50 % ai"', '> 2')
    expect(liquid.title).toBe('12.8 fl oz of product')
  })

  test('what is missing is asked', async () => {
    const said = await ask('', '= amount:"100 gal" wanted:"1 %" strength:"4 lb ai/gal"')
    expect(said.title).toBe('2.085 gal of product')
  })

  test.each([
    ['amount:"100 gal" wanted:"60 %" strength:"50 %" form:liquid', 'too weak'],
    ['amount:"100 gal" wanted:"0 ppm"', 'above zero'],
    ['amount:"100 gal" wanted:"5 ppm" strength:"0 %"', '0'],
    ['amount:"50 lb" wanted:"5 ppm"', 'needs a volume'],
    ['amount:"100 gal" wanted:strong', 'strong'],
    ['amount:"100 gal" wanted:"4 lb ai/gal" strength:"50 %"', 'no strength of a spray'],
  ])('%s is refused', async (line, why) => {
    const said = await ask(line)
    expect(said.outcome).toBe('refusal')
    expect(said.lines.join('\n')).toContain(why)
  })
})

describe('/water', () => {
  const water = async (line: string, ...more: readonly string[]) =>
    (await openRoom()).as('bex')(`/water ${line}`, ...more)

  test('100 gal weigh 834 lb: US Army MD0173 takes 8.34 lb a gallon', async () => {
    expect((await water('amount:"100 gal"')).title).toBe('100 gal of water weighs 834 lb')
  })

  test('each ppm of the test has its share of ammonium sulfate, and the label comes first', async () => {
    // North Dakota State University, Crop & Pest Report, 2 July 2015: 0.009 × 300 + 0.014 × 50 = 3.4
    const said = await water('calcium:300 magnesium:"50 ppm" amount:"200 gal"')
    expect([said.outcome, said.title]).toEqual(['heads-up', '3.4 lb/100 gal of ammonium sulfate'])
    expect(said.facts.sulfate_total).toBe('6.8 lb')
    expect(said.lines.join('\n')).toContain('label’s own figure')
  })

  test('asks for the test, and takes part of it', async () => {
    const said = await water('', '= iron:1')
    expect(said.title).toBe('0.042 lb/100 gal of ammonium sulfate')
  })

  test('what is no figure is refused', async () => {
    expect((await water('calcium:hard')).outcome).toBe('refusal')
    expect((await water('calcium:-5')).outcome).toBe('refusal')
  })
})
