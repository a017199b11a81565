import { beforeAll, describe, expect, test } from 'vitest'
import { commands } from '#commands/index.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { habits } from '#src/season/habits.ts'
import { noiseOf, reportOf, type SeasonReport, writeReport } from '#src/season/report.ts'
import { runSeason } from '#src/season/run-season.ts'
import { countMix, newTally } from '#src/season/tally.ts'
import { loadWords } from '#src/words/load.ts'
import { freshAddress } from '#tests/helpers/fresh-address.ts'

const WEEKS = 3
const season = async (seed: number) =>
  reportOf(await runSeason(commands, { ...habits, weeks: WEEKS }, seed, await freshAddress()), {
    seed,
    weeks: WEEKS,
  })

describe('three weeks of the demo crew', () => {
  let report: SeasonReport
  beforeAll(async () => {
    report = await season(7)
  })

  test('hold 25 mixes a week on five days', () => {
    expect([report.mixes, report.days]).toEqual([WEEKS * 25, WEEKS * 5])
  })

  test('every mix has one last word, and a question is never the last', () => {
    expect(report.outcomes.reduce((sum, { mixes }) => sum + mixes, 0)).toBe(report.mixes)
    expect(report.outcomes.find(({ outcome }) => outcome === 'question')?.mixes).toBe(0)
    expect(report.outcomes.find(({ outcome }) => outcome === 'answer')?.mixes).toBeGreaterThan(0)
  })

  test('no reason comes up on more mixes or days than there are, and shares follow', () => {
    for (const { mixes, share, days } of report.reasons) {
      expect(mixes).toBeGreaterThan(0)
      expect(mixes).toBeLessThanOrEqual(report.mixes)
      expect(share).toBeCloseTo(mixes / report.mixes, 3)
      expect(days).toBeGreaterThan(0)
      expect(days).toBeLessThanOrEqual(1)
    }
    // Each refused or held mix has at least the reason on which it ended.
    for (const outcome of ['hold', 'refusal'] as const) {
      const ended = report.outcomes.find((one) => one.outcome === outcome)?.mixes ?? 0
      const reasons = report.reasons.filter((one) => one.outcome === outcome)
      expect(reasons.reduce((sum, { mixes }) => sum + mixes, 0)).toBeGreaterThanOrEqual(ended)
    }
  })

  test('no heads-up and no hold is daily noise', () => {
    expect(noiseOf(report)).toEqual([])
  })

  test('the same seed gives the same season, another seed another one', async () => {
    expect(await season(7)).toEqual(report)
    expect((await season(8)).reasons).not.toEqual(report.reasons)
  })

  test('is written as a table whose sentences are those of the catalogue', () => {
    const text = writeReport(report, loadWords())
    const rows = text.split('\n').filter((line) => line.startsWith('| '))
    expect(rows).toHaveLength(4 + report.outcomes.length + report.reasons.length)
    expect(text).not.toContain('undefined')
    expect(rows.every((row) => !/, (plural|select),/.test(row))).toBe(true)
  })
})

describe('the count', () => {
  const held = reply('hold', say('mixing.contents-unknown'))
  const answered = reply('heads-up', say('mixing.title'), {
    lines: [say('mixing.tool'), say('mixing.no-site'), say('mix.note.output-trap')],
  })

  test('takes a reason once a mix, told lines as told, and the last reply as the outcome', () => {
    const tally = newTally()
    countMix(tally, '2026-05-04', [held, held, answered])
    countMix(tally, '2026-05-04', [answered])
    const { outcomes, reasons } = reportOf(tally, { seed: 0, weeks: 1 })
    expect(outcomes.filter(({ mixes }) => mixes > 0)).toEqual([{ outcome: 'heads-up', mixes: 2, share: 1 }])
    expect(reasons).toEqual([
      { outcome: 'answer', id: 'mix.note.output-trap', mixes: 2, share: 1, days: 1 },
      { outcome: 'heads-up', id: 'mixing.no-site', mixes: 2, share: 1, days: 1 },
      { outcome: 'hold', id: 'mixing.contents-unknown', mixes: 1, share: 0.5, days: 1 },
    ])
    expect(noiseOf(reportOf(tally, { seed: 0, weeks: 1 })).map(({ id }) => id)).toEqual([
      'mixing.no-site',
      'mixing.contents-unknown',
    ])
  })

  test('a mix without an answer is a bug', () => {
    expect(() => countMix(newTally(), '2026-05-04', [])).toThrow(RangeError)
  })
})
