import { type Reply, reply } from '#src/conversation/reply.ts'
import { type Param, say, type Text } from '#src/conversation/text.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { taxonByName } from '#src/plants.ts'
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
          turfs: { all: turfs.map(turfOf) },
        }),
      ]),
      ...(entry.excludedTurfs ?? []).map((turf) => say('book.card.excluded', { turf: turfOf(turf) })),
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
      ...(limits.worksThrough === undefined
        ? []
        : [say('book.card.works-through', { way: limits.worksThrough.way })]),
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

/**
 * Turf as the label prints it, which is what a second person compares; with the names of the key beside it, which are
 * said in the reader's language. Where both are the same in English, the key's name alone.
 */
function turfOf({
  words,
  taxa = [],
}: {
  readonly words: string
  readonly taxa?: readonly string[] | undefined
}): Param {
  const [only, ...more] = taxa
  if (only === undefined) return words
  const isSame = more.length === 0 && taxonByName(words)?.id === only
  return isSame
    ? say(`plant.${only}`)
    : say('book.card.turf', { words, names: { all: taxa.map((id) => say(`plant.${id}`)) } })
}
