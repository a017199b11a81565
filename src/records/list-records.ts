import { z } from 'zod'
import type { Choice, Reply } from '#src/conversation/reply.ts'
import { reply } from '#src/conversation/reply.ts'
import type { Param, Text } from '#src/conversation/text.ts'
import { asTyped, say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { recordName } from '#src/record/number.ts'
import type { RecordRow } from '#src/store/records.ts'
import { KeptFilter } from './kept-filter.ts'
import { lacksOf } from './lacks.ts'
import type { RecordFound } from './read-record.ts'
import { readRecords } from './read-record.ts'
import { noLacks, productsIn, recordFacts, sayDayOf, sayStanding } from './say-row.ts'

const SHOWN = 10

/** What a press on "older" carries: the same filter, and the number before which to go on. */
export const Older = z.strictObject({ filter: KeptFilter, before: z.int().positive().exactOptional() })
export type Older = z.infer<typeof Older>

/** Ten records, the newest first, a line each. */
export async function listRecords({ filter, before }: Older, tools: Tools): Promise<Reply> {
  const { store } = tools
  const rows = await store.records.listNewest(filter, SHOWN + 1, before)
  const shown = rows.slice(0, SHOWN)
  if (shown.length === 0)
    return reply('question', say(before === undefined ? 'records.none' : 'records.no-older'), {
      audience: 'person',
      safety: { about: ['records'] },
    })
  const found = await readRecords(store, shown)
  const names = await store.sites.namesOf(shown.flatMap(({ siteId }) => siteId ?? []))
  const lacks = await Promise.all(found.map((one) => (one.kind === 'read' ? lacksOf(store, one) : noLacks)))
  const oldest = shown.at(-1)?.number ?? 1
  return reply('answer', say('records.title', { count: shown.length }), {
    lines: found.map((one) => sayLine(one, names)),
    facts: shown.flatMap((row, at) => recordFacts(row, lacks[at] ?? noLacks, at + 1)),
    choices: [
      ...(rows.length > SHOWN ? [older({ filter, before: oldest })] : []),
      ...shown.map(
        ({ number }): Choice => ({
          label: say('records.open', { number: recordName(number) }),
          to: { step: 'show', value: number },
          repeat: true,
        }),
      ),
    ],
    audience: 'person',
    safety: { about: ['records'] },
  })
}

const older = (to: Older): Choice => ({
  label: say('records.older'),
  to: { step: 'older', value: to },
  repeat: true,
  look: 'main',
})

function sayLine(found: RecordFound, names: ReadonlyMap<number, string>): Text {
  const { row } = found
  const number = recordName(row.number)
  if (found.kind === 'unreadable') return say('records.unreadable', { number })
  return say('records.line', {
    number,
    day: sayDayOf(row),
    site: saySite(row, names),
    product: sayProducts(productsIn(found)),
    standing: sayStanding(row),
  })
}

/** The site by its name, also when it was retired since. */
export function saySite({ siteId }: RecordRow, names: ReadonlyMap<number, string>): Param {
  const name = siteId === null ? undefined : names.get(siteId)
  return name === undefined ? say('records.no-site') : name
}

function sayProducts(names: readonly string[]): Param {
  return names.length === 0 ? say('records.no-product') : { all: names.map(asTyped) }
}
