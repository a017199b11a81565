import { effectiveSwath, type Pan } from '#src/calculator/calibrate/pans.ts'
import { granularTarget, halfRate, testSpreader } from '#src/calculator/calibrate/spreader.ts'
import type { Calculated } from '#src/calculator/worked.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { parseQuantity } from '#src/quantity/parse.ts'
import type { AreaRate } from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import { asks, type Found, figure, type Run, rounded, tell } from './found.ts'
import type { Figures } from './read.ts'

/** The product that so much nutrient asks for; what fell, against it. */
export const spreader: Run = (figures) => {
  const { ground, before, after, target, analysis } = figures
  const wanted = target === undefined ? null : productFor(target, analysis)
  if (wanted !== null && !wanted.ok) return { kind: 'worked', result: wanted }
  if (wanted !== null && before.length === 0) return tell(wanted, tellTarget)
  if (ground === undefined || before.length === 0 || after.length === 0)
    return asks('before', 'after', 'ground', 'target')
  if (before.length !== after.length)
    return { kind: 'asks', missing: ['before', 'after'], why: say('outputs.pairs') }
  return weigh(figures, wanted?.value ?? null, ground)
}

const productFor = (target: AreaRate, analysis: string | undefined): Calculated<AreaRate> =>
  analysis === undefined
    ? { ok: true, value: target, working: [], findings: [] }
    : granularTarget(target, analysis)

function tellTarget(rate: AreaRate): Found {
  const half = sayRate(halfRate(rate))
  return {
    title: say('outputs.granular', { rate: sayRate(rate) }),
    lines: [say('outputs.half', { rate: half })],
    facts: [
      { name: 'product_rate', ...figure(sayRate(rate)) },
      { name: 'half_rate', ...figure(half) },
    ],
    keep: null,
  }
}

type Ground = NonNullable<Figures['ground']>

function weigh({ before, after, tolerance }: Figures, target: AreaRate | null, ground: Ground) {
  const runs = before.flatMap((one, at) => {
    const left = after[at]
    return left === undefined ? [] : [{ before: one, after: left, ground }]
  })
  const tested = testSpreader(runs, {
    ...(target === null ? {} : { target }),
    ...(tolerance === undefined ? {} : { tolerancePercent: tolerance }),
  })
  return tell(tested, ({ rate, deviationPercent }) => {
    const said = sayRate(rate)
    const off = deviationPercent === null ? null : rounded({ value: deviationPercent, unit: '%' }, 1)
    return {
      title: say('outputs.spreader', { rate: said }),
      lines: [
        ...(off === null || target === null
          ? []
          : [say('outputs.deviation', { off, target: sayRate(target) })]),
        say('outputs.half-way'),
      ],
      facts: [
        { name: 'spreader_rate', ...figure(said) },
        ...(off === null ? [] : [{ name: 'off_target', ...figure(off) }]),
      ],
      keep: { kind: 'spreader', ...said },
    }
  })
}

/** Pans across the path: `-6 ft 1; -3 ft 5; 0 10; 3 ft 6; 6 ft 1`, the place of each and what it caught. */
export const pans: Run = ({ isMetric }, { caught }) => {
  if (caught === undefined) return asks('caught')
  const read = readPans(caught, isMetric ? 'm' : 'ft')
  if (!Array.isArray(read)) return { kind: 'asks', missing: ['caught'], why: read }
  return tell(effectiveSwath(read), ({ swath, left, right }) => {
    const told = rounded(swath, 1)
    return {
      title: say('outputs.swath', { swath: told }),
      lines: [say('outputs.swath-sides', { left: rounded(left, 1), right: rounded(right, 1) })],
      facts: [{ name: 'swath', ...figure(told) }],
      keep: null,
    }
  })
}

const PAN =
  /^([-−]?)\s*([\d.,/ ]*?\d(?:\s*(?:ft|feet|foot|in|inch(?:es)?|yd|m|cm|pies?|pulg(?:adas?)?|metros?|'|"))?)\s*[:=\s]\s*([\d.,]+)$/i

function readPans(text: string, bareUnit: 'ft' | 'm'): Pan[] | Text {
  const pans: Pan[] = []
  for (const line of text.split(/[;\n]/).map((one) => one.trim())) {
    if (line === '') continue
    const [, sign = '', place = '', caught = ''] = PAN.exec(line) ?? []
    const offset = parseQuantity(place, { expect: 'length', bareUnit, allowZero: true })
    const amount = caught.replace(',', '.')
    if (!offset.ok || !/^\d+(\.\d+)?$/.test(amount)) return say('outputs.pan-unreadable', { text: line })
    const value = sign === '' || offset.value.value === '0' ? offset.value.value : `-${offset.value.value}`
    pans.push({ offset: { ...offset.value, value }, caught: amount })
  }
  return pans
}
