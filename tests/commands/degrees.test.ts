import { describe, expect, test } from 'vitest'
import { onScreen, openRoom, type Said } from './open-room.ts'

const factOf = (answer: Said, name: string) =>
  answer.shown.answered.reply.facts.find((one) => one.name === name)?.value

/** Published single days, counted through the command. */
const published = [
  {
    typed: 'temperatures:"1 de abril 74 52; 2 abr 58 40; Apr 3, 2026 70 50" method:average base:"50 F"',
    total: 23,
    source: 'Purdue University, growing degree days: 13 and 0, and by hand 10, with months by name',
  },
  {
    typed: 'temperatures:"2026-04-01 74 52" method:average base:"50 F"',
    total: 13,
    source: 'Purdue University, growing degree days: 74 and 52 at base 50',
  },
  {
    typed: 'temperatures:"2026-04-01 60 40" method:capped base:"50 F" cap:"86 F"',
    total: 5,
    source: 'Ohio State University Extension AGF-101: 60 and 40 by the capped method',
  },
  {
    typed: 'temperatures:"2026-04-01 90 70" method:capped base:"50 F" cap:"86 F"',
    total: 28,
    source: 'Ohio State University Extension AGF-101: 90 and 70 by the capped method',
  },
  {
    typed: 'temperatures:"67/46" start:"2026-04-01" method:average base:"50"',
    total: 6.5,
    source: 'Network for Environment and Weather Applications: 67 and 46 at base 50',
  },
] as const

test.each(published)('$typed is $total ($source)', async ({ typed, total }) => {
  const type = (await openRoom()).as('bex')
  expect(factOf(await type(`/degrees ${typed}`), 'degree_days')).toBe(total)
})

test('the answer names its method, base and first day', async () => {
  const type = (await openRoom()).as('bex')
  expect(
    await onScreen(
      type,
      '/degrees temperatures:"2026-04-01 74 52; 4/2 58 40; 4/4, 70, 50" method:average base:"50 F"',
    ),
  ).toMatchInlineSnapshot(`
    "
    /degrees temperatures:"2026-04-01 74 52; 4/2 58 40; 4/4, 70, 50" method:average base:"50 F"
        heads-up: 23 degree days (°F) since Wed, Apr 1, 2026
        Counted by simple average, base 50 °F.
        3 days, Wed, Apr 1, 2026 to Sat, Apr 4, 2026.
        1 day is missing, so the total is too low: Fri, Apr 3, 2026
    "
  `)
})

test('method and base are asked, never guessed', async () => {
  const type = (await openRoom()).as('bex')
  expect(
    await onScreen(type, '/degrees', '= temperatures:"74/52; 60/40" start:"2026-04-01"', '> 2', '> 3'),
  ).toMatchInlineSnapshot(`
    "
    /degrees
        question: Which days? Paste a high and a low for each
        A day a line: date, high, low. 2026-04-01 74 52, or 74/52 with a first day.
        = temperatures, base, start
    = temperatures:"74/52; 60/40" start:"2026-04-01"
        question: By which method?
        The same days give another total by another method. Take the one that your threshold was published with.
        > 1 simple average
        > 2 both ends cut
        > 3 single sine
    > 2
        question: From which base?
        > 1 22 °F
        > 2 32 °F
        > 3 50 °F
        = base
    > 3
        question: Which upper limit? Heat above it does not count
        = cap
    "
  `)
  const answer = await type('= cap:"86 F"')
  expect([factOf(answer, 'degree_days'), factOf(answer, 'method')]).toEqual([18, 'capped'])
})

test('earlier days are left out of the sum', async () => {
  const type = (await openRoom()).as('bex')
  const answer = await type(
    '/degrees temperatures:"2026-03-31 90 70; 2026-04-01 74 52" start:"2026-04-01" method:average base:"50 F"',
  )
  expect(factOf(answer, 'degree_days')).toBe(13)
})

describe('what cannot be counted', () => {
  test.each([
    ['temperatures:"hot; cold"', 'question'],
    ['temperatures:"2026-02-30 74 52"', 'refusal'],
    ['temperatures:"2026-04-01 74"', 'refusal'],
    ['temperatures:"2026-04-01 740 52"', 'refusal'],
    ['temperatures:"2026-04-01 74 52; 2026-04-01 70 50"', 'refusal'],
    ['temperatures:"2026-04-01 74 52" base:"warm" method:average', 'refusal'],
    ['temperatures:"2026-04-01 74 52" start:"someday"', 'refusal'],
    ['temperatures:"2026-04-01 74 52" method:capped base:"86 F" cap:"50 F"', 'refusal'],
    ['temperatures:"2026-04-01 74 52" method:average base:"50 F" start:"2026-05-01"', 'question'],
  ])('%s: %s', async (typed, outcome) => {
    const room = await openRoom()
    const answer = await room.as('bex')(`/degrees ${typed}`)
    expect(answer.outcome).toBe(outcome)
    expect(answer.screen.join(' ').length).toBeGreaterThan(25)
    expect(room.errors).toEqual([])
  })

  test('one wrong line in a form is corrected there', async () => {
    const type = (await openRoom()).as('bex')
    await type('/degrees method:average base:"50 F"')
    const again = await type('= temperatures:"2026-04-01 74 52; 2026-04-02 x"')
    expect([again.outcome, again.fields]).toEqual(['question', ['temperatures', 'base', 'start']])
    expect(factOf(await type('= temperatures:"2026-04-01 74 52; 2026-04-02 70 50"'), 'degree_days')).toBe(23)
  })
})
