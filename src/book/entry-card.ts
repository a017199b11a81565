import { type Reply, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { waitLines } from './waits.ts'

/** An entry of the label book as the crew reads it: rates and limits in the label's own figures. */
export function entryCard(entry: LabelEntry, title: Text, more: readonly Text[] = []): Reply {
  const { limits, safety } = entry
  return reply('answer', title, {
    lines: [
      ...more,
      say('book.card.product', {
        formulation: { literal: entry.formulation },
        actives: { all: entry.actives.map(({ name, strength }) => `${name} ${strength}`) },
      }),
      say('book.card.registration', {
        number: entry.registration.number ?? '25(b)',
        version: entry.label.version,
        day: { day: entry.label.date },
      }),
      ...entry.rateLines.flatMap(({ line, rates, turfs }) => [
        say('book.card.line', { line }),
        say('book.card.rates', {
          rates: {
            all: rates.map(({ low, high }) => (low === undefined ? high : `${low} - ${high}`)),
            join: 'or',
          },
          turfs: { all: turfs.map(({ words }) => words) },
        }),
      ]),
      ...(entry.excludedTurfs ?? []).map(({ words }) => say('book.card.excluded', { turf: words })),
      ...(limits.perApplication ?? []).map(({ rates }) =>
        say('book.card.per-application', { rates: { all: [...rates], join: 'or' } }),
      ),
      ...(limits.perYear ?? []).map(({ rates, period }) =>
        say('book.card.per-year', { rates: { all: [...rates], join: 'or' }, period }),
      ),
      ...(limits.interval ?? []).map(({ days }) => say('book.card.interval', { days })),
      ...(limits.treatments ?? []).map(({ most }) => say('book.card.treatments', { most })),
      ...(limits.minimumOutput === undefined
        ? []
        : [say('book.card.output', { output: limits.minimumOutput.output })]),
      ...waitLines(limits),
    ],
    facts: [{ name: 'product', value: entry.name }],
    audience: 'person',
    safety: {
      about: ['measuring'],
      label: [
        ...(entry.signalWord === 'none'
          ? []
          : [
              say('mixing.signal', {
                product: entry.name,
                word: say(`signal.${entry.signalWord.toLowerCase()}`),
              }),
            ]),
        say('mixing.wear-mixing', { items: { all: safety.mixing } }),
      ],
    },
  })
}
