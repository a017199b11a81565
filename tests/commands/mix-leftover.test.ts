import { expect, test } from 'vitest'
import { onScreen, openRoom } from './open-room.ts'

/** Figures in this file: common practice, no source. */
test('on top of half a gallon of the same mix: 3.6 g at 1.3 gal per 1,000 ft² with a 0.1 g scale', async () => {
  const bex = (await openRoom()).as('bex')
  const line =
    '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"1.3 gal/1000 ft2" in_tank:"0.5 gal" scale:"0.1 g"'
  expect(await onScreen(bex, line)).toMatchInlineSnapshot(`
    "
    /mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"1.3 gal/1000 ft2" in_tank:"0.5 gal" scale:"0.1 g"
        heads-up: 3.6 g of the product (0.127 oz wt)
        Measure with: scale (0.1 g steps)
        0.5 gal is in the tank: add some water, then the product, stir until it is gone, then fill to the 2 gal mark.
        Covers 1,538 ft² at 1.3 gal/1000 ft².
        Gives 0.1108 oz wt/1000 ft².
        No label entry was checked: this is your own reading of the label.
        0.08692 oz wt/gal at your output, 0.113 oz wt/gal at the usual one. Mix by yours.
    "
  `)
  expect((await bex(line)).facts).toMatchObject({ concentrate: '3.6 g', tank: '2 gal' })
})

test('1.5 gal made for one gallon per 1,000 ft², used at two: add none, fill to 3 gal, which does not fit', async () => {
  const bex = (await openRoom()).as('bex')
  const line =
    '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"2 gal/1000 ft2" in_tank:"1.5 gal" in_tank_output:"1 gal/1000 ft2"'
  expect(await onScreen(bex, line)).toMatchInlineSnapshot(`
    "
    /mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"2 gal/1000 ft2" in_tank:"1.5 gal" in_tank_output:"1 gal/1000 ft2"
        hold: Add no product. It would take 3 gal to bring what is in the tank to the right strength, and the tank holds 2 gal.
        1 gal of it makes 2 gal of the right strength. Keep the other 0.5 gal in a labeled container for the next tank.
    "
  `)
  expect((await bex(line)).facts).toMatchObject({ concentrate: '0 oz wt', tank: '3 gal' })
})

test('the same leftover in a tank of exactly 3 gal needs water alone', async () => {
  const bex = (await openRoom()).as('bex')
  expect(
    await onScreen(
      bex,
      '/mix rate:"0.113 oz wt/1000 ft2" tank:"3 gal" output:"2 gal/1000 ft2" in_tank:"1.5 gal" in_tank_output:"1 gal/1000 ft2"',
    ),
  ).toMatchInlineSnapshot(`
    "
    /mix rate:"0.113 oz wt/1000 ft2" tank:"3 gal" output:"2 gal/1000 ft2" in_tank:"1.5 gal" in_tank_output:"1 gal/1000 ft2"
        heads-up: Add no product: fill with water to the 3 gal mark
        Covers 1,500 ft² at 2 gal/1000 ft².
        Gives 0.113 oz wt/1000 ft².
        No label entry was checked: this is your own reading of the label.
        0.0565 oz wt/gal at your output, 0.113 oz wt/gal at the usual one. Mix by yours.
    "
  `)
})

test('a larger filling takes the rest: 4 gal need 0.226 oz, the leftover holds 0.1695 oz', async () => {
  const bex = (await openRoom()).as('bex')
  const { facts } = await bex(
    '/mix rate:"0.113 oz wt/1000 ft2" tank:"4 gal" output:"2 gal/1000 ft2" in_tank:"1.5 gal" in_tank_output:"1 gal/1000 ft2"',
  )
  expect(facts.concentrate_exact).toBe('0.0565 oz wt')
})

test('more in the tank than it holds, or than is wanted, is no question of arithmetic', async () => {
  const bex = (await openRoom()).as('bex')
  expect(
    await onScreen(
      bex,
      '/mix rate:"3 pt/acre" tank:"2 gal" output:"1 gal/1000 ft2" in_tank:"3 gal"',
      '/mix rate:"3 pt/acre" tank:"1 gal" output:"1 gal/1000 ft2" in_tank:"1.5 gal" sprayer:"Hand can"',
      '/mix rate:"3 pt/acre" tank:"5 gal" sprayer:"Hand can"',
    ),
  ).toMatchInlineSnapshot(`
    "
    /mix rate:"3 pt/acre" tank:"2 gal" output:"1 gal/1000 ft2" in_tank:"3 gal"
        refusal: 3 gal cannot be in a tank that holds 2 gal.
    /mix rate:"3 pt/acre" tank:"1 gal" output:"1 gal/1000 ft2" in_tank:"1.5 gal" sprayer:"Hand can"
        refusal: 1.5 gal is in the tank already, more than the 1 gal asked for.
    /mix rate:"3 pt/acre" tank:"5 gal" sprayer:"Hand can"
        hold: 5 gal does not fit: the tank holds 2 gal.
    "
  `)
})
