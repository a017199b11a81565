import { describe, expect, test } from 'vitest'
import type { Tools } from '#src/desk/command.ts'
import { mayI } from '#src/label/allow.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { rateOf } from '#src/label/figures.ts'
import type { Limits } from '#src/label/limits.ts'
import { activesOf } from '#src/mixing/tank/actives.ts'
import { judgeDosed, partnersOf } from '#src/mixing/tank/judge.ts'
import type { JudgedPart } from '#src/mixing/tank/part.ts'
import { CrewSettings } from '#src/store/crews.ts'
import { entry, line, situation } from '../../label/build.ts'

const yearly = (rate: string, counts: 'active' | 'product'): Limits => ({
  perYear: [{ rates: [rate], period: 'rolling', counts, line: `No more than ${rate} a year.` }],
})

/** 75 % of the same active as the 4 EC: 0.4 oz of it is 0.3 oz ai on 1,000 ft². */
const dry = (limits: Limits = {}) => entry({ name: 'Invented 75 WDG', limits })
/** 4 lb ai a gallon: 1 fl oz is 0.5 oz ai. */
const liquid = (limits: Limits = {}) =>
  entry({
    name: 'Madeup 4 EC',
    form: 'liquid',
    formulation: 'EC',
    actives: [{ name: 'Inventol', strength: '4 lb ai/gal' }],
    rateLines: [line({ rates: [{ high: '1 fl oz/1000 ft2' }] })],
    limits,
  })

function partOf(index: number, body: LabelEntry): JudgedPart {
  const now = situation()
  const revision = {
    id: index,
    entryId: index,
    revision: 1,
    body,
    status: 'live',
    enteredBy: 1,
    confirmedBy: 2,
    createdAtMs: 0,
  } as const
  const person = {
    id: 1,
    key: 'p',
    name: 'P',
    language: null,
    role: 'crew',
    leads: false,
    lastChannelKey: null,
    settings: {
      units: null,
      license: null,
      deputyOf: null,
      days: { weekdays: null, daysOff: [] as string[] },
      earlierNames: [] as string[],
    },
  } as const
  return {
    index,
    given: { product: body.name },
    named: {
      product: {
        id: index,
        name: body.name,
        confirmedOn: now.lastConfirmedOn,
        live: revision,
        retired: false,
      },
      sprayer: null,
      site: null,
      area: null,
      person,
    },
    situation: now,
    verdict: mayI(body, now),
    lifted: null,
  }
}

const tools = { today: '2025-06-30', crew: { settings: CrewSettings.parse({}) } } as Tools

function judged(first: LabelEntry, second: LabelEntry, rates: readonly [string, string]) {
  const parts = [partOf(0, first), partOf(1, second)]
  const dosed = parts.map((part, at) => ({
    part,
    rate: rateOf(part.named.product.live.body, rates[at] ?? ''),
  }))
  const verdicts = parts.map((part) => judgeDosed(part, dosed, { output: undefined, more: {} }, tools))
  return { parts, dosed, ids: verdicts.map(({ reasons }) => reasons.map(({ id }) => id)) }
}

const RATES = ['0.4 oz wt/1000 ft2', '1 fl oz/1000 ft2'] as const

describe('the same active in two products of a tank', () => {
  test('is added up and pointed out: 0.3 oz and 0.5 oz are 0.8 oz', () => {
    const { dosed } = judged(dry(), liquid(), RATES)
    const { totals, findings } = activesOf(dosed, undefined)
    expect(totals.map(({ total }) => [Number(total.value).toFixed(6), total.unit, total.of])).toEqual([
      ['0.800000', 'oz wt', 'ai'],
    ])
    expect(findings.map(({ id }) => id)).toEqual(['order.active-twice'])
  })

  test('counts toward a yearly limit of the active', () => {
    const within = judged(dry(yearly('0.8 oz wt ai/1000 ft2', 'active')), liquid(), RATES)
    expect(within.ids[0]).not.toContain('label.above-year')
    const above = judged(dry(yearly('0.79 oz wt ai/1000 ft2', 'active')), liquid(), RATES)
    expect(above.ids[0]).toContain('label.above-year')
    expect(above.ids[1]).not.toContain('label.above-year')
  })

  test('does not count toward a yearly limit of the product alone', () => {
    const { ids } = judged(dry(yearly('0.5 oz wt/1000 ft2', 'product')), liquid(), RATES)
    expect(ids[0]).not.toContain('label.above-year')
  })

  test('is no second treatment: an interval runs from one day to another', () => {
    const limits: Limits = { interval: [{ days: 28, counts: 'active' }] }
    expect(judged(dry(limits), liquid(), RATES).ids[0]).not.toContain('label.interval')
  })
})

test('products without a common active leave each other’s limits alone', () => {
  const other = entry({
    name: 'Else 50 WP',
    formulation: 'WP',
    actives: [{ name: 'elsewhat', strength: '50 % ai' }],
  })
  const { ids, dosed } = judged(dry(yearly('0.31 oz wt ai/1000 ft2', 'active')), other, [RATES[0], RATES[0]])
  expect(ids[0]).not.toContain('label.above-year')
  expect(activesOf(dosed, undefined).findings).toEqual([])
})

test('each product hears the names of all others', () => {
  const parts = [partOf(0, dry()), partOf(1, liquid())]
  expect(parts.map((part) => partnersOf(parts, part))).toEqual([['Madeup 4 EC'], ['Invented 75 WDG']])
})
