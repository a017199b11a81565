import { say, type Text } from '#src/conversation/text.ts'
import { sayRate } from '#src/quantity/said.ts'
import { sayElement } from '#src/record/complete.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { RecordDraft } from '#src/record/record.ts'
import type { Finding } from '#src/record/rules/rule.ts'
import type { Judged } from './judge.ts'

/** The figures of a log, as they are repeated before it is kept: a slip is seen when it is read back. */
export function summaryOf(draft: RecordDraft): Text[] {
  const area = recorded(draft.treatedArea)
  const drawn = recorded(draft.totalMix)
  const start = recorded(draft.startedAt)
  const end = recorded(draft.endedAt)
  const day = recorded(draft.date)
  return [
    ...(recorded(draft.products) ?? []).flatMap((product) => {
      const amount = recorded(product.amount)
      const rate = recorded(product.rate)
      if (amount === undefined) return [say('logging.sum-product-only', { product: product.name })]
      return [
        rate === undefined
          ? say('logging.sum-product', { product: product.name, amount })
          : say('logging.sum-product-rate', { product: product.name, amount, rate: sayRate(rate) }),
      ]
    }),
    ...(area === undefined ? [] : [say(`logging.sum-area-${basisOf(draft)}`, { area })]),
    ...groundLine(draft),
    ...(drawn === undefined ? [] : [say('logging.sum-mix', { mix: drawn })]),
    ...(day === undefined
      ? []
      : [
          start === undefined
            ? say('logging.sum-day', { day: { day } })
            : end === undefined
              ? say('logging.sum-start', { day: { day }, start: start.local.slice(11) })
              : say('logging.sum-times', {
                  day: { day },
                  start: start.local.slice(11),
                  end: end.local.slice(11),
                }),
        ]),
    ...weatherLine(draft),
  ]
}

function basisOf({ areaBasis, coverage }: RecordDraft): 'estimate' | 'whole' | 'part' {
  if (areaBasis === 'estimate') return 'estimate'
  return coverage === 'whole area' ? 'whole' : 'part'
}

/** Which part of ground that was treated before: its limits hang on it. */
function groundLine({ coverage, sameGround }: RecordDraft): Text[] {
  if (coverage === 'whole area') return []
  switch (sameGround) {
    case 'same spots':
      return [say('logging.sum-ground-same')]
    case 'other spots':
      return [say('logging.sum-ground-other')]
    case 'missed strip':
      return [say('logging.sum-ground-missed')]
    default:
      return []
  }
}

/** Wind and air in one line; an earlier reading shows its hour. */
function weatherLine(draft: RecordDraft): Text[] {
  const wind = recorded(draft.windSpeed)?.at(-1)
  const from = recorded(draft.windFrom)?.at(-1)
  const air = recorded(draft.temperature)?.at(-1)
  if (wind === undefined) return []
  const parts = [
    from === undefined
      ? say('logging.sum-wind', { wind: wind.value })
      : say('logging.sum-wind-from', { wind: wind.value, from: say(`logging.wind-from.${from.value}`) }),
    ...(air === undefined ? [] : [say('logging.sum-air', { air: air.value })]),
    ...(wind.takenAt.local === recorded(draft.startedAt)?.local
      ? []
      : [say('logging.sum-read-at', { at: wind.takenAt.local.slice(11) })]),
  ]
  return [say('logging.sum-weather', { parts: { all: parts, join: 'and' } })]
}

/** What is missing in one line: asked and not known, or never asked. */
export function missingLine({ status }: Judged): Text[] {
  if (status.missing.length === 0) return []
  const all = status.missing.map(({ element }) => sayElement(element))
  return [say('logging.missing', { count: all.length, what: { all, join: 'and' } })]
}

/** What the rules found, the label's findings first; problems before warnings. */
export function findingLines({ status, estimates }: Judged): Text[] {
  const weight = ({ weight: one, about }: Finding) =>
    (about === 'label' ? 0 : 2) + (one === 'problem' ? 0 : 1)
  const sorted = [...status.findings].sort((a, b) => weight(a) - weight(b))
  return [...estimates, ...sorted.map(({ text }) => text)]
}
