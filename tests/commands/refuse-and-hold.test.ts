import { readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { projectRoot } from '#src/project.ts'
import { fillForms, press } from './fill-log.ts'
import { openRoom, type Room, type Said } from './open-room.ts'

/**
 * Situations in which a crew is refused or held, numbered 1 to 34. Sources stand beside the rules themselves: labels in
 * the label book, published advice in data/weather, law in data/states; the rest is common practice, no source.
 */
const TARNBRASK = '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can"'
const CHAPEL = 'site:"Wrennoch Chapel" area:"Chapel green"'
const CALM = '/conditions wind:"5 mph" temperature:"70 F" humidity:50'

interface Row {
  readonly row: number
  readonly what: string
  readonly typed: readonly string[]
  readonly outcome: 'refusal' | 'hold'
  /** Plain words that stand on the screen. */
  readonly says: string
}

const rows: readonly Row[] = [
  {
    row: 1,
    what: 'a word of exposure, in the middle of a log',
    typed: ['/log product:"Tarnbrask 75 WDG" notes:"some splashed in my eye"'],
    outcome: 'hold',
    says: '911: passed out, not breathing, or shaking',
  },
  {
    row: 14,
    what: 'wind toward people',
    typed: [`${CALM} toward:people`],
    outcome: 'hold',
    says: 'Hold: the wind blows toward people. Wait, or start from another side',
  },
  {
    row: 16,
    what: 'turf short of water',
    typed: [`${CALM} drought:yes`],
    outcome: 'hold',
    says: 'Hold: the turf is short of water. It is hurt easily and weeds take up little',
  },
  {
    row: 16,
    what: 'turf greening up',
    typed: [`${CALM} greening_up:yes`],
    outcome: 'hold',
    says: 'Hold: the turf is greening up',
  },
  {
    row: 16,
    what: 'turf newly seeded',
    typed: [`${CALM} new_grass:yes`],
    outcome: 'hold',
    says: 'Hold: the turf is new. The label says how long to wait',
  },
  {
    row: 16,
    what: 'turf just mown',
    typed: [`${CALM} mown:0`],
    outcome: 'hold',
    says: 'Hold: mown 0 days ago.',
  },
  {
    row: 18,
    what: 'soaked ground',
    typed: [`${CALM} ground:soaked`],
    outcome: 'hold',
    says: 'Hold: the ground is soaked',
  },
  {
    row: 18,
    what: 'frozen ground or snow',
    typed: [`${CALM} ground:"frozen or snow"`],
    outcome: 'hold',
    says: 'Hold: the ground is frozen or under snow',
  },
  {
    row: 20,
    what: 'gear of the label not at hand',
    typed: [`${CALM} clothing:"gear missing"`],
    outcome: 'refusal',
    says: 'No: the label’s gear is not here. Get it before anything is opened.',
  },
  {
    row: 21,
    what: 'no water, soap and eye rinse',
    typed: [`${CALM} clothing:"no wash water"`],
    outcome: 'hold',
    says: 'Hold: first set up water, soap, and enough clean water to rinse eyes for 15 minutes.',
  },
  {
    row: 22,
    what: 'people on the ground',
    typed: [`${CALM} ground:"people on it"`],
    outcome: 'hold',
    says: 'Hold: people are on the ground or beside it. Clear it first, and keep it clear until it has dried.',
  },
  {
    row: 22,
    what: 'pets on the ground',
    typed: [`${CALM} ground:"pets on it"`],
    outcome: 'hold',
    says: 'Hold: pets are on the ground or beside it.',
  },
  {
    row: 22,
    what: 'school or day-care grounds',
    typed: [`${CALM} ground:"school or day care"`],
    outcome: 'hold',
    says: 'Hold: school or day-care grounds. Nobody may be there, and many states have rules of their own.',
  },
  {
    row: 24,
    what: 'a tank mix on which a label is silent',
    typed: [
      '/mix product:"Pellimoor 80 WP" also:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn" for:"Teo Almendrique"',
    ],
    outcome: 'hold',
    says: 'The label does not name Pellimoor 80 WP as a partner in the tank. A licensed lead decides.',
  },
  {
    row: 29,
    what: 'bleach beside a product',
    typed: [`${TARNBRASK} also:bleach ${CHAPEL}`],
    outcome: 'refusal',
    says: 'No: bleach does not go into a sprayer. Only what a label names does.',
  },
  {
    row: 29,
    what: 'a home recipe in place of a product',
    typed: ['/mix product:"vinegar and dish soap" tank:"2 gal" sprayer:"Hand can"'],
    outcome: 'refusal',
    says: 'Home recipes are off the label, and some mixtures give off poison gas. Use a product with a label.',
  },
  {
    row: 31,
    what: 'a place outside the USA',
    typed: ['/setup crew state:ON'],
    outcome: 'refusal',
    says: 'Outside the US these rules do not hold: ask the authority there.',
  },
]

const screenOf = ({ screen }: Said) => screen.join('\n')

test.each(rows)('row $row: $what', async ({ typed, outcome, says }) => {
  const said = await (await openRoom()).as('odalys')(...typed)
  expect(said.outcome).toBe(outcome)
  expect(screenOf(said)).toContain(says)
})

/** Changes what is noted of a demo site or of its area. */
async function note(room: Room, site: string, change: { water?: string; use?: string }) {
  await room.store(async ({ sites }) => {
    const found = (await sites.list()).find(({ name }) => name === site)
    if (found === undefined) throw new Error('No such site')
    const [area] = await sites.listAreas(found.id)
    if (area === undefined) throw new Error('No such area')
    if (change.water !== undefined)
      await sites.update(found.id, { ...found, details: { ...found.details, water: change.water } })
    if (change.use !== undefined)
      await sites.updateArea(area.id, { ...area, details: { ...area.details, use: change.use } })
  })
}

describe('row 19: water nearer than the label’s buffer, or nobody knows how near', () => {
  const mix = `/mix product:"Yarvendel 50 WG" tank:"2 gal" sprayer:"Hand can" ${CHAPEL}`

  test('notes of a site that speak of water hold until it is measured', async () => {
    const room = await openRoom()
    await note(room, 'Wrennoch Chapel', { water: 'a pond behind the hedge' })
    const said = await room.as('bex')(mix)
    expect(screenOf(said)).toContain('66 ft from water at least. Measure how near the water is.')
    expect(['hold', 'refusal']).toContain(said.outcome)
  })

  test('nearer is refused with the label’s line; far enough, or none, is not', async () => {
    const bex = (await openRoom()).as('bex')
    const near = await bex(`${mix} water:"40 ft"`)
    expect(near.outcome).toBe('refusal')
    expect(screenOf(near)).toContain('No: 66 ft from water at least. This is 40 ft.')
    for (const water of ['"70 ft"', 'none'])
      expect(screenOf(await bex(`${mix} water:${water}`))).not.toContain('from water at least')
  })
})

test('row 33: a sod farm, a nursery or a greenhouse is held for its worker rules, which a lawn does not have', async () => {
  const room = await openRoom()
  await note(room, 'Wrennoch Chapel', { use: 'sod farm' })
  const said = await room.as('bex')(`${TARNBRASK} ${CHAPEL}`)
  expect(said.outcome).toBe('hold')
  expect(screenOf(said)).toContain(
    'A sod farm, nursery or greenhouse has federal worker rules that lawns do not have. A licensed lead decides.',
  )
})

test('row 31: a state whose rules are not loaded is asked by the strictest ones, and that is said', async () => {
  const said = await (await openRoom()).as('odalys')('/setup crew state:FL')
  expect(said.lines).toContain(
    'No rules of FL are loaded here, so the strictest ones are asked. Ask its agency what it wants in a record.',
  )
})

test('row 30: illness, animals and the law are judged by those whose work it is', async () => {
  const said = await (await openRoom()).as('bex')('/emergency')
  expect(said.lines).toContain(
    'Illness: a doctor judges it. An animal: its vet. The law: the state agency. The bot judges none of them.',
  )
})

const LOG =
  '/log product:"Tarnbrask 75 WDG" site:"Plimmet Street House" area:"Front lawn" coverage:"whole area" hands_washed:yes unusual:no'

test('row 26: a kept record is not edited or dated back; an amendment with a reason stands beside what was', async () => {
  const room = await openRoom()
  const bex = room.as('bex')
  await press(bex, await fillForms(bex, await bex(LOG)), 'Yes, record it')
  const form = await press(bex, await bex('/record amend record:R1'), 'When')
  const filled = (given: Said, own: Readonly<Record<string, string>>) =>
    `= ${(given.shown.answered.reply.form?.fields ?? []).map(({ name, value }) => `${name}:"${own[name] ?? value ?? ''}"`).join(' ')}`
  const silent = await bex(filled(form, { date: '2026-05-01' }))
  expect([silent.outcome, silent.title]).toEqual(['refusal', 'R1 stays as it is'])
  const again = await press(bex, await bex('/record amend record:R1'), 'When')
  const done = await bex(filled(again, { date: '2026-05-01', why: 'it was Friday' }))
  expect(done.screen.slice(0, 2)).toEqual(['answer: R1 is amended', 'Date: 2026-05-04 → 2026-05-01'])
  const shown = await bex('/record show number:R1')
  expect(screenOf(shown)).toContain('it was Friday')
  expect(screenOf(shown)).toContain('was 2026-05-04; now 2026-05-01')
})

test('row 25: leftover mix never goes into a drain, and a lawful way is asked for', async () => {
  const bex = (await openRoom()).as('bex')
  await bex(`${TARNBRASK} site:"Plimmet Street House" area:"Front lawn" spots:other`, '> 1')
  let said = await bex('> 1')
  for (const label of ['Washed, all went well', 'A strip']) said = await press(bex, said, label)
  said = await fillForms(bex, said, { mix_drawn: '1 gal', leftover_fate: 'poured down the storm drain' })
  expect(said.fields).toContain('leftover_fate')
  expect(screenOf(said)).toContain('No: leftover mix never goes into a drain, a ditch or water.')
})

test('row 27: what nobody knows stays “not recorded” and is named as missing; nothing is made up', async () => {
  const room = await openRoom()
  const bex = room.as('bex')
  const kept = await press(bex, await fillForms(bex, await bex(LOG), { started_at: '?' }), 'Yes, record it')
  expect(kept.facts.complete).toBe(false)
  expect(String(kept.facts.missing)).toContain('start')
})

/** Rows whose tests stand where their rule is at home: the file, and what stands in it. */
const ELSEWHERE: Readonly<Record<number, readonly [file: string, said: string]>> = {
  2: ['label/papers', "['never confirmed',"],
  3: ['commands/mix-label-says-no', 'above the highest rate, and below what the label allows at least'],
  4: [
    'commands/mix-label-says-no',
    'is asked about before the label refuses, and the refusal says until when',
  ],
  5: ['commands/mix-label-says-no', 'turf that no line of the label lists'],
  6: ['commands/mix-label-says-no', 'turf that nobody has named'],
  7: ['commands/key', 'without a head it holds, with all four names and no way to a mix'],
  8: [
    'commands/mix-label-says-no',
    'a weed that is not on the label, lifted by a licensed lead with a written reason',
  ],
  9: ['label/papers', "['refusal label.restricted-use']"],
  10: ['record/rules', '10: license missing, run out, wrong category'],
  11: ['label/papers', "['a file symbol',"],
  12: ['commands/conditions', 'wind above 10 mph is held where no label speaks'],
  13: ['commands/conditions', 'nearly still air asks for the signs of layered air, and a sign is a hold'],
  15: ['weather/may-i-today', "['over the label limit',"],
  17: ['weather/may-i-today', "['inside the dry hours of the label',"],
  23: ['record/rules', '23: signs or notice not done'],
  28: ['commands/log', 'something unusual is an incident, told to the leads'],
  32: ['record/rules', '32: label and record disagree'],
  34: ['record/rules', '34: aerial, drone, chemigation'],
}

test.each(Object.entries(ELSEWHERE))('row %s stands in a test of its own', (_row, [file, said]) => {
  expect(readFileSync(path.join(projectRoot(), 'tests', `${file}.test.ts`), 'utf8')).toContain(said)
})

test('every row from 1 to 34 has a test here or a home of its own', () => {
  const here = readFileSync(path.join(projectRoot(), 'tests/commands/refuse-and-hold.test.ts'), 'utf8')
  const named = new Set([...here.matchAll(/row:? (\d+)/g)].map(([, row]) => Number(row)))
  const all = Array.from({ length: 34 }, (_, at) => at + 1)
  expect(all.filter((row) => !named.has(row) && ELSEWHERE[row] === undefined)).toEqual([])
})
