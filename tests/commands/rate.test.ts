import { describe, expect, test } from 'vitest'
import { onScreen, openRoom } from './open-room.ts'

describe('/rate', () => {
  test('3 pt/acre is 1.1 fl oz per 1,000 ft²: 48 fl oz on 43.56 thousand square feet', async () => {
    const bex = (await openRoom()).as('bex')
    const line = '/rate amount:"3 pt/acre" to:"fl oz/1000 ft2"'
    expect(await onScreen(bex, line)).toMatchInlineSnapshot(`
      "
      /rate amount:"3 pt/acre" to:"fl oz/1000 ft2"
          answer: 1.102 fl oz/1000 ft²
          3 pt/acre is the same as 1.102 fl oz/1000 ft².
      "
    `)
    expect(Number.parseFloat(String((await bex(line)).facts.converted))).toBeCloseTo(48 / 43.56, 9)
  })

  test('0.75 lb ai/acre of a product with 6.7 lb ai/gal: 0.75 ÷ 6.7 × 8 pt', async () => {
    const bex = (await openRoom()).as('bex')
    const { facts, title } = await bex('/rate amount:"0.75 lb ai/acre" strength:"6.7 lb ai/gal" to:"pt/acre"')
    expect(title).toBe('0.8955 pt/acre')
    expect(Number.parseFloat(String(facts.converted))).toBeCloseTo((0.75 / 6.7) * 8, 9)
  })

  test('asks for the figure that it lacks', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/rate amount:"0.75 lb ai/acre" to:"pt/acre"',
        '= strength:"6.7 lb ai/gal"',
        '/rate amount:"2 lb/100 gal" to:"lb/acre"',
        '= output:"2 gal/1000 ft2"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /rate amount:"0.75 lb ai/acre" to:"pt/acre"
          question: How strong is the product? Give its ai, such as 4 lb ai/gal or 80 % ai.
          = strength
      = strength:"6.7 lb ai/gal"
          answer: 0.8955 pt/acre
          0.75 lb ai/acre is the same as 0.8955 pt/acre.
      /rate amount:"2 lb/100 gal" to:"lb/acre"
          question: How much mix goes on the ground? Give the output, such as 1 gal/1000 ft2.
          = output
      = output:"2 gal/1000 ft2"
          answer: 1.742 lb/acre
          2 lb/100 gal is the same as 1.742 lb/acre.
          1 gal covers 500 ft² (0.01148 acres)
      "
    `)
  })

  test('what cannot be turned into one another is said', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/rate amount:"3 pints" to:"fl oz/1000 ft2"',
        '/rate amount:"3 oz/acre" to:"g/m2"',
        '/rate amount:"3 pt/acre" to:"elephants"',
        '/rate amount:"3 pt/acre"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /rate amount:"3 pints" to:"fl oz/1000 ft2"
          refusal: Cannot convert that
          amount: “3 pints” does not say per what. Write it like 3 pt/acre, 1 gal/1000 ft2 or 2 lb/100 gal.
      /rate amount:"3 oz/acre" to:"g/m2"
          refusal: Cannot convert that
          amount: 3 oz by weight or by volume? Write oz wt for a dry product, fl oz for a liquid.
      /rate amount:"3 pt/acre" to:"elephants"
          refusal: Cannot convert that
          to: “elephants” does not say per what. Write it like 3 pt/acre, 1 gal/1000 ft2 or 2 lb/100 gal.
      /rate amount:"3 pt/acre"
          question: In which unit?
          = to
      "
    `)
  })

  test('on bands less goes on the ground, and as much in the band', async () => {
    // University of Minnesota Extension: 3 lb an acre in 10 in bands on 30 in rows is 1 lb per crop acre.
    const said = await (await openRoom()).as('bex')('/rate amount:"3 lb/acre" band:"10 in" row:30')
    expect(said.title).toBe('1 lb/acre of the whole ground')
    expect(said.lines.join('\n')).toContain('Inside the band it stays 3 lb/acre')
    expect(said.facts.per_field).toBe('1 lb/acre')
  })

  test('a band without its spacing is asked for it, a wider band than that is none', async () => {
    const bex = (await openRoom()).as('bex')
    expect((await bex('/rate amount:"3 lb/acre" band:"10 in"', '= row:"30 in"')).facts.per_field).toBe(
      '1 lb/acre',
    )
    expect((await bex('/rate amount:"3 lb/acre" band:"40 in" row:"30 in"')).outcome).toBe('refusal')
    expect((await bex('/rate amount:"2 % v/v" band:"10 in" row:"30 in"')).outcome).toBe('refusal')
  })

  test('a gallon covers what the output leaves it', async () => {
    const said = await (await openRoom()).as('bex')('/rate output:"25 gal/acre"')
    expect(said.title).toBe('1 gal covers 1,742 ft² (0.04 acres)')
  })

  test('a label that says what a gallon covers gives a rate', async () => {
    const bex = (await openRoom()).as('bex')
    expect((await bex('/rate amount:"1 gal covers 4 acres"')).title).toBe('0.25 gal/acre')
    expect((await bex('/rate amount:"1 gal cubre 4 acres" to:"qt/acre"')).title).toBe('1 qt/acre')
  })

  test('without a rate or a unit, they are asked', async () => {
    const bex = (await openRoom()).as('bex')
    expect((await bex('/rate', '= amount:"3 pt/acre"', '= to:"gal/acre"')).facts.converted).toBe(
      '0.375 gal/acre',
    )
  })
})
