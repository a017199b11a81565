import { describe, expect, test } from 'vitest'
import { onScreen, openRoom, type Said } from './open-room.ts'

const value = (answer: Said, name: string) =>
  answer.shown.answered.reply.facts.find((one) => one.name === name)?.value

test('the label’s own limit comes first and is named', async () => {
  const type = (await openRoom()).as('bex')
  const answer = await type(
    '/conditions product:"Bellstrake 3 L" wind:"5 mph" temperature:"99 F" humidity:"50" droplets:coarse rain_in:48',
  )
  expect(answer.outcome).toBe('refusal')
  expect(answer.lines.join(' ')).toContain('Label, page 4: “Do not spray above 85 F.”')
})

test('what the label wants to know is asked in one form', async () => {
  const type = (await openRoom()).as('bex')
  const asked = await type('/conditions product:"Bellstrake 3 L" wind:"5 mph" temperature:"78 F"')
  expect(asked.outcome).toBe('question')
  expect(asked.fields).toEqual(['droplets', 'rain_in'])
  const answer = await type('= droplets:coarse rain_in:48')
  expect(['answer', 'heads-up']).toContain(answer.outcome)
})

test('drop sizes are said and read in Spanish, with the name that tips print beside them', async () => {
  const teo = (await openRoom()).as('teo')
  const day = '/conditions product:"Bellstrake 3 L" wind:"5 mph" temperature:"78 F" rain_in:48'
  expect(await onScreen(teo, day, '> es')).toContain(
    'media (medium), gruesa (coarse) o muy gruesa (very coarse)',
  )
  expect(await onScreen(teo, `${day} droplets:fina`, '> es')).toContain('la gota es fina (fine)')
  expect(['answer', 'heads-up']).toContain((await teo(`${day} droplets:"muy gruesa"`)).outcome)
})

test('nearly still air asks for the signs of layered air, and a sign is a hold', async () => {
  const type = (await openRoom()).as('bex')
  const asked = await type('/conditions wind:"1 mph" temperature:"70 F"')
  expect(asked.choices).toContain('Smoke hangs in a layer')
  expect((await type('> 1')).outcome).toBe('hold')
})

test('wind above 10 mph is held where no label speaks', async () => {
  const type = (await openRoom()).as('bex')
  expect((await type('/conditions wind:"14 mph" temperature:"70 F"')).outcome).toBe('hold')
})

test('heat index by the regression of the National Weather Service: 90 °F and 60 % is 99.7 °F', async () => {
  const type = (await openRoom()).as('bex')
  expect(value(await type('/conditions wind:"5 mph" temperature:"90 F" humidity:"60 %"'), 'heat_index')).toBe(
    99.7,
  )
})

test('Delta T is zero in air that holds all the water it can', async () => {
  const type = (await openRoom()).as('bex')
  expect(value(await type('/conditions wind:"5 mph" temperature:"70 F" humidity:"100"'), 'delta_t')).toBe(0)
})

test.each(['wind:"fast"', 'humidity:"wet"', 'temperature:"🌡"'])(
  'nonsense is a clear sentence: %s',
  async (typed) => {
    const type = (await openRoom()).as('bex')
    expect((await type(`/conditions ${typed}`)).outcome).toBe('refusal')
  },
)

describe('an ordinary day', () => {
  test('the readings first, then the air and how far apart advice is', async () => {
    const type = (await openRoom()).as('bex')
    expect(
      await onScreen(
        type,
        '/conditions wind:"5 mph" wind_from:W temperature:"70 F" humidity:"60" sky:"some clouds" sun:high',
      ),
    ).toMatchInlineSnapshot(`
      "
      /conditions wind:"5 mph" wind_from:W temperature:"70 F" humidity:"60" sky:"some clouds" sun:high
          answer: Wind 5 mph, 70 °F: nothing speaks against it now
          Delta T 5 °C (9 °F), vapor pressure deficit 1 kPa, wet bulb 61 °F, heat index 69.8 °F.
          9 published upper ends of wind run from 3 mph to 10 mph.
          Wind from the west: drops go east. Who or what is there?
          No product named: only published advice was looked at. Its label comes first.
      "
    `)
  })

  test('who begins with nothing is asked for the whole day in one form', async () => {
    const type = (await openRoom()).as('bex')
    expect((await type('/conditions')).fields).toEqual(['wind', 'temperature', 'humidity', 'gust'])
    expect((await type('= wind:"5 mph" temperature:"70 F" humidity:"60 %"')).outcome).toBe('answer')
  })

  test('a wrong figure in the form is corrected there', async () => {
    const type = (await openRoom()).as('bex')
    await type('/conditions')
    const again = await type('= wind:breezy temperature:"70 F"')
    expect([again.outcome, again.fields]).toEqual(['question', ['wind', 'temperature', 'humidity', 'gust']])
  })

  test('a gust below the steady wind is asked for again, since one of the two is wrong', async () => {
    const type = (await openRoom()).as('bex')
    await type('/conditions')
    const again = await type('= wind:"9 mph" gust:"5 mph" temperature:"70 F" humidity:"60 %"')
    expect(again.outcome).toBe('question')
    expect(again.lines.join('\n')).toContain('A gust of 5 mph is less than the steady wind, 9 mph.')
    expect((await type('= wind:"5 mph" gust:"9 mph" temperature:"70 F"')).outcome).not.toBe('question')
  })

  test('a person who works in Celsius types and reads Celsius', async () => {
    const type = (await openRoom()).as('bex')
    await type('/setup me units:metric')
    const answer = await type('/conditions wind:"8" temperature:"20" humidity:"50"')
    // FAO 56 chapter 3 gives 2.338 kPa at 20 °C; half of it is lacking.
    expect(value(answer, 'vpd')).toBe(1.17)
    // By the balance of a ventilated psychrometer; the closed form reads 13.7.
    expect(answer.facts.wet_bulb).toBe('13.8 C')
  })
})

describe('signs of layered air', () => {
  const calm = '/conditions wind:"1 mph" temperature:"70 F"'

  test('a sign that may mean little leaves the others to look for', async () => {
    const type = (await openRoom()).as('bex')
    const asked = await type(calm)
    expect(asked.choices).toHaveLength(6)
    const again = await type('> 3')
    expect([again.outcome, again.choices.length]).toEqual(['question', 5])
    const done = await type('> 5')
    expect(done.outcome).toBe('heads-up')
  })

  test('none of them leaves a calm to be minded', async () => {
    const type = (await openRoom()).as('bex')
    await type(calm)
    const done = await type('> 6')
    expect(done.outcome).toBe('heads-up')
    expect(done.title).toContain('Wind under 3 mph')
  })

  test('a low sun asks too, whatever the wind', async () => {
    const type = (await openRoom()).as('bex')
    const asked = await type('/conditions wind:"5 mph" temperature:"70 F" sun:"going down" sky:overcast')
    expect(asked.outcome).toBe('question')
    expect(asked.choices).not.toContain('Clear sky, sun low or down')
  })
})

describe('the grass and the place', () => {
  const fine = 'wind:"5 mph" temperature:"70 F" humidity:"60"'

  test.each([
    ['drought:true', 'short of water'],
    ['greening_up:true', 'greening up'],
    ['new_grass:true', 'the turf is new'],
    ['ground:soaked', 'soaked'],
    ['ground:"frozen or snow"', 'frozen'],
    ['mown:0', 'mown 0 days ago'],
    ['toward:bees', 'bees'],
    ['rain_in:0', 'rain now'],
  ])('%s is a hold', async (typed, words) => {
    const answer = await (await openRoom()).as('bex')(`/conditions ${fine} ${typed}`)
    expect(answer.outcome).toBe('hold')
    expect(answer.title).toContain(words)
  })

  test('what to mind at a site is told with it', async () => {
    const answer = await (await openRoom()).as('bex')(
      `/conditions ${fine} site:"Plimmet Street House" area:"Back lawn"`,
    )
    expect(answer.lines).toContain('Water: Garden pond, 18 ft from the back lawn.')
    expect(answer.lines).toContain('Pets: Two dogs; ask to keep them in until the lawn is dry.')
  })

  test('new seed is held by the label of the product', async () => {
    const answer = await (await openRoom()).as('bex')(
      `/conditions product:"Tarnbrask 75 WDG" ${fine} rain_in:48 site:"Plimmet Street House" area:"Back lawn"`,
    )
    expect(answer.screen.join(' ')).toContain('New seed waits for 3 mowings')
  })

  test('roots under the turf ask for the label’s word', async () => {
    const type = (await openRoom()).as('bex')
    const line = `/conditions product:"Fennowick 4 EC" ${fine} roots:true`
    expect((await type(line)).choices).toEqual([
      'The label allows it over roots',
      'The label forbids it over roots',
    ])
    expect((await type('> 2')).outcome).toBe('refusal')
    await type(line)
    expect((await type('> 1')).outcome).not.toBe('refusal')
  })

  test('a product for sleeping turf asks whether it sleeps', async () => {
    const type = (await openRoom()).as('bex')
    const asked = await type(`/conditions product:"Stilbrack 41 SL" ${fine}`)
    expect(asked.choices).toEqual(['Yes, brown and asleep', 'No, some green'])
    expect((await type('> 2')).outcome).toBe('refusal')
  })

  test('watering sooner than the label allows is a hold', async () => {
    const answer = await (await openRoom()).as('bex')(
      `/conditions product:"Yarvendel 50 WG" ${fine} water_in:4`,
    )
    expect(answer.title).toBe('Hold: watering in 4 h. The label asks for 12 h without')
  })
})

describe('heat', () => {
  test('does not fire on an ordinary summer day for a product of another group', async () => {
    const answer = await (await openRoom()).as('bex')(
      '/conditions product:"Yarvendel 50 WG" wind:"5 mph" temperature:"80 F" humidity:"50" forecast_high:"84 F"',
    )
    expect(['answer', 'heads-up']).toContain(answer.outcome)
  })

  test('weighs heavier in a chemical-resistant suit', async () => {
    const type = (await openRoom()).as('bex')
    const line = '/conditions wind:"5 mph" temperature:"92 F" humidity:"60"'
    expect(value(await type(line), 'heat_band')).toBe('high')
    expect(value(await type(`${line} clothing:"chemical-resistant suit"`), 'heat_band')).toBe('extreme')
  })

  test('nothing is told of people from a humidity that cannot be', async () => {
    const answer = await (await openRoom()).as('bex')(
      '/conditions wind:"5 mph" temperature:"92 F" humidity:"160"',
    )
    expect([answer.outcome, value(answer, 'heat_index')]).toEqual(['refusal', undefined])
  })
})

test('a droplet class that nobody sells is told', async () => {
  const answer = await (await openRoom()).as('bex')('/conditions wind:"5 mph" droplets:misty')
  expect(answer.lines.join(' ')).toContain('“misty” is no droplet class')
})

describe('what a label says of the way in', () => {
  test('drought holds what works through the leaf, not what works through the soil', async () => {
    const type = (await openRoom()).as('bex')
    const day = 'wind:"5 mph" temperature:"70 F" drought:yes droplets:coarse rain_in:48'
    expect((await type(`/conditions product:"Bellstrake 3 L" ${day}`)).outcome).toBe('hold')
    expect((await type(`/conditions product:"Harmottle 0.5 G" ${day}`)).title).not.toContain('drought')
  })
})

test('without a product nothing is said of what its label prints', async () => {
  const type = (await openRoom()).as('bex')
  const windy = await type('/conditions wind:"14 mph" temperature:"70 F" rain_in:3')
  expect(windy.outcome).toBe('hold')
  expect([windy.title, ...windy.lines].join(' ')).not.toMatch(/label prints no/i)
  expect(windy.lines.join(' ')).toContain('No product named')
})

test('the wet bulb is that of the height the crew works at', async () => {
  const room = await openRoom()
  const air = '/conditions wind:"5 mph" temperature:"86 F" humidity:30'
  const low = value(await room.as('bex')(air), 'wet_bulb')
  const kept = await room.as('lead')('/setup crew elevation:"6000 ft"')
  expect(kept.lines).toContain('Elevation: 6,000 ft')
  const high = value(await room.as('bex')(air), 'wet_bulb')
  // Thinner air takes up more: the psychrometric constant of FAO 56, equation 8, goes with the pressure.
  expect(Number(high)).toBeLessThan(Number(low))
  expect((await room.as('lead')('/setup crew elevation:"60000 ft"')).outcome).toBe('refusal')
})

test('a site that lies higher than the crew has a wet bulb of its own', async () => {
  const room = await openRoom()
  const lead = room.as('lead')
  const air = 'wind:"5 mph" temperature:"86 F" humidity:30'
  const site = 'Ospelwick School'
  const low = value(await lead(`/conditions site:"${site}" area:"Soccer field" ${air}`), 'wet_bulb')
  await lead(`/site edit site:"${site}" elevation:"6000 ft"`)
  expect(
    Number(value(await lead(`/conditions site:"${site}" area:"Soccer field" ${air}`), 'wet_bulb')),
  ).toBeLessThan(Number(low))
  expect(value(await lead(`/conditions ${air}`), 'wet_bulb')).toBe(low)
})
