import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { chooseSafety } from '#src/words/choose-safety.ts'
import { loadEmergencyCard, loadSafetyLines, loadWords } from '#src/words/load.ts'
import { STANDING_LINE, safetyWords, Topic } from '#src/words/safety.ts'

const lines = loadSafetyLines()
const words = loadWords()
const topicsOf = (id: string) => lines.find((line) => line.id === id)?.about ?? []

describe('the lines', () => {
  test('there are at least three lines for each topic', () => {
    for (const topic of Topic.options)
      expect(lines.filter(({ about }) => about.includes(topic)).length, topic).toBeGreaterThanOrEqual(3)
  })

  test('each names its source, and what has none says so', () => {
    for (const { id, source } of lines)
      expect(source, id).toMatch(/^[A-Z0-9]|^common practice, no source$|^from memory$/)
  })

  test.each(['en', 'es'])('each fits two lines of a phone in %s', (locale) => {
    for (const { id } of lines) {
      const text = words.source(locale, safetyWords(id))
      expect(text, id).not.toBeNull()
      expect(text?.length, id).toBeLessThanOrEqual(140)
    }
    expect(words.source(locale, STANDING_LINE)).not.toBeNull()
  })

  test('no signal word of labels stands in a line', () => {
    for (const locale of ['en', 'es'])
      for (const { id } of lines)
        expect(words.source(locale, safetyWords(id)), id).not.toMatch(
          /danger|warning|caution|peligro|precauci/i,
        )
  })
})

describe('chooseSafety()', () => {
  const anyNeed = fc.record({
    about: fc.subarray([...Topic.options, 'unheard-of'], { minLength: 0 }),
    turnNumber: fc.nat(),
    recentlyShown: fc.subarray(lines.map(({ id }) => id)),
  })

  test('always shows a line, one that fits, and the same for the same need', () => {
    fc.assert(
      fc.property(anyNeed, (need) => {
        const chosen = chooseSafety(lines, need)
        expect(chosen.length).toBeGreaterThan(0)
        expect(new Set(chosen).size).toBe(chosen.length)
        expect(chooseSafety(lines, need)).toEqual(chosen)
        const known = need.about.filter((topic) => Topic.options.some((option) => option === topic))
        const fitting: readonly string[] = known.length > 0 ? known : ['general']
        for (const id of chosen) expect(topicsOf(id).some((topic) => fitting.includes(topic))).toBe(true)
      }),
    )
  })

  test('goes through all lines of a topic before one comes again', () => {
    for (const topic of Topic.options.filter((one) => one !== 'emergency')) {
      const pool = lines.filter(({ about }) => about.includes(topic))
      const shown = pool.map((_, turnNumber) => chooseSafety(lines, { about: [topic], turnNumber })[0])
      expect(new Set(shown).size, topic).toBe(pool.length)
    }
  })

  test('what was just read comes last', () => {
    const pool = lines.filter(({ about }) => about.includes('mixing')).map(({ id }) => id)
    const recentlyShown = pool.slice(1)
    expect(chooseSafety(lines, { about: ['mixing'], turnNumber: 5, recentlyShown })).toEqual([pool[0]])
    expect(chooseSafety(lines, { about: ['mixing'], turnNumber: 5, recentlyShown: pool })).toHaveLength(1)
  })

  test('lines that were asked for come first, in their order, then one that fits', () => {
    const first = ['mix.two-labels', 'general.ask-lead']
    const chosen = chooseSafety(lines, { about: ['cleanup'], first, turnNumber: 3 })
    expect(chosen.slice(0, 2)).toEqual(first)
    expect(topicsOf(chosen[2] ?? '')).toContain('cleanup')
  })

  test('in an emergency its lines come before all others, 911 first', () => {
    const chosen = chooseSafety(lines, {
      about: ['emergency', 'mixing'],
      first: ['mix.order'],
      turnNumber: 8,
    })
    expect(chosen).toEqual([
      'emergency.call-911',
      'emergency.poison-help',
      'emergency.have-label',
      'mix.order',
    ])
  })

  test('a line that is no more is left out', () => {
    expect(chooseSafety(lines, { about: ['wind'], first: ['gone.line'], turnNumber: 0 })).toHaveLength(1)
  })
})

describe('the emergency card', () => {
  const card = loadEmergencyCard()

  test('911 comes first, then Poison Help, with the published numbers', () => {
    // EPA, In case of pesticide emergency; NPIC, https://npic.orst.edu/factsheets/pcc-npic.html
    expect(card.numbers.map(({ number }) => number).slice(0, 3)).toEqual([
      '911',
      '1-800-222-1222',
      '1-800-858-7378',
    ])
  })

  test('NPIC is promised for questions only, in its hours', () => {
    const npic = card.numbers.find(({ id }) => id === 'npic')
    expect(npic?.for).toEqual(['questions'])
    expect(npic?.hours).toEqual({ days: 'mon-fri', from: '08:00', to: '12:00', zone: 'America/Los_Angeles' })
  })

  test('every way into the body has a step, and a spill has its order', () => {
    const routes = new Set(card.steps.map(({ route }) => route))
    for (const route of ['first', 'eye', 'skin', 'breathed', 'swallowed', 'take-along', 'spill'] as const)
      expect(routes).toContain(route)
    const spill = card.steps.filter(({ route }) => route === 'spill').map(({ id }) => id)
    expect(spill).toEqual(['spill.control', 'spill.contain', 'spill.clean', 'spill.report'])
  })
})
