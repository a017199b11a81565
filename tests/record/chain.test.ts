import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { amend, sealAmendment } from '#src/record/amend.ts'
import type { Json } from '#src/record/canonical.ts'
import type { Link } from '#src/record/chain.ts'
import {
  GENESIS,
  hashOf,
  nextLink,
  printHead,
  readHead,
  textOfEntry,
  verifyChain,
  walkChain,
  walkEnd,
  walkStart,
} from '#src/record/chain.ts'
import { removePersonal, seal, sha256 } from '#src/record/seal.ts'
import { sayBreak } from '#src/record/words.ts'
import { loadWords } from '#src/words/load.ts'
import { speakForRecord } from '#src/words/speak.ts'
import { at, english, record, saltOf, units } from './build.ts'

/** Records with an amendment after every third, each in its place. */
function chainOf(length: number): readonly Link[] {
  const links: Link[] = []
  for (let n = 0; n < length; n += 1) links.push(nextLink(links.at(-1) ?? null, entryNo(n)))
  return links
}

function entryNo(n: number): Link['entry'] {
  const kept = record({ number: `R-${n}`, treatedArea: units.square(String(1000 + n)) })
  const salt = (path: string) => saltOf(`${n} ${path}`)
  if (n % 3 !== 2) return { kind: 'record', sealed: seal(kept as Json, salt) }
  const made = amend(
    { record: record({ number: `R-${n - 1}` }), amended: [], voidedBy: null },
    {
      number: `A-${n}`,
      at: at('2025-07-01 08:00'),
      by: { name: 'Demo Lead Harrowmere' },
      why: english('read again'),
      changes: { county: `Demo ${n}` },
    },
  )
  if (!made.ok) throw new RangeError('Cannot build the chain of the test')
  return { kind: 'amendment', sealed: sealAmendment(made.value, salt) }
}

const links = chainOf(9)
const head = links.at(-1) as Link
const kinds = (chain: readonly Link[], against?: { seq?: number; hash: string }) =>
  verifyChain(chain, against === undefined ? {} : { against }).map(({ kind, seq }) => `${kind} ${seq}`)

/** The open part of one link. */
function openAt(n: number): { readonly [key: string]: Json } {
  return (links[n] as Link).entry.sealed.open as { readonly [key: string]: Json }
}

/** The open part of one link, changed. */
function withOpen(
  chain: readonly Link[],
  at: number,
  change: (open: { [key: string]: Json }) => Json,
): Link[] {
  return chain.map((link, n) => {
    if (n !== at) return link
    const open = change(structuredClone(link.entry.sealed.open) as { [key: string]: Json })
    return { ...link, entry: { ...link.entry, sealed: { ...link.entry.sealed, open } } }
  })
}

/** Everything from one link on, hashed anew by somebody who has the code. */
function rehashed(chain: readonly Link[], from: number): Link[] {
  const made: Link[] = []
  for (const [n, link] of chain.entries())
    made.push(n < from ? link : nextLink(made.at(-1) ?? null, link.entry))
  return made
}

describe('a chain', () => {
  test('that nobody touched holds, from the first link on', () => {
    expect(kinds(links)).toEqual([])
    expect(links[0]?.previous).toBe(GENESIS)
    expect(links.map(({ seq }) => seq)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9])
  })

  test('can be checked with any tool: SHA-256 over previous hash, place and text', () => {
    for (const { seq, previous, entry, hash } of links)
      expect(sha256(`${previous}\n${seq}\n${textOfEntry(entry)}`)).toBe(hash)
  })

  test('an empty one holds', () => {
    expect(kinds([])).toEqual([])
  })

  test('holds without any personal data', () => {
    const bare = links.map((link) => ({
      ...link,
      entry: { ...link.entry, sealed: removePersonal(link.entry.sealed) },
    }))
    expect(kinds(bare, head)).toEqual([])
  })

  test('holds whichever personal values are taken out', () => {
    const paths = links.flatMap(({ entry }, n) =>
      Object.keys(entry.sealed.kept).map((path) => [n, path] as const),
    )
    fc.assert(
      fc.property(fc.subarray([...paths]), (gone) => {
        const bare = links.map((link, n) => {
          const mine = gone.filter(([at]) => at === n).map(([, path]) => path)
          return { ...link, entry: { ...link.entry, sealed: removePersonal(link.entry.sealed, mine) } }
        })
        expect(kinds(bare, head)).toEqual([])
      }),
      { numRuns: 40 },
    )
  })
})

describe('what is done to a chain is found, and where', () => {
  test('a changed text', () => {
    expect(kinds(withOpen(links, 3, (open) => ({ ...open, county: 'Other' })))).toEqual(['changed-text 4'])
  })

  test('a changed text of an amendment', () => {
    expect(kinds(withOpen(links, 2, (open) => ({ ...open, number: 'A-99' })))).toEqual(['changed-text 3'])
  })

  test('a changed text with a new hash of its own: what follows does not fit', () => {
    const changed = withOpen(links, 3, (open) => ({ ...open, county: 'Other' }))
    const forged = changed.map((link, n) =>
      n === 3 ? { ...link, hash: hashOf(link.seq, link.previous, link.entry) } : link,
    )
    expect(kinds(forged)).toEqual(['rewritten 5'])
  })

  test('a missing link', () => {
    expect(kinds(links.filter((_, n) => n !== 3))).toEqual(['missing-link 4'])
  })

  test('a missing beginning', () => {
    expect(kinds(links.slice(2))).toEqual(['missing-link 1'])
  })

  test('two links turned', () => {
    const turned = [...links]
    ;[turned[3], turned[4]] = [turned[4] as Link, turned[3] as Link]
    expect(kinds(turned).every((said) => said.startsWith('reordered') || said.startsWith('missing'))).toBe(
      true,
    )
    expect(kinds(turned)).toContain('reordered 4')
  })

  test('a link that stands twice', () => {
    expect(kinds([...links.slice(0, 4), links[3] as Link, ...links.slice(4)])).toEqual(['reordered 4'])
  })

  test('a cut tail, against a hash that was printed', () => {
    const cut = links.slice(0, 7)
    expect(kinds(cut)).toEqual([])
    expect(kinds(cut, { hash: head.hash })).toEqual(['cut-tail 8'])
    expect(kinds(cut, head)).toEqual(['cut-tail 8'])
  })

  test('a chain written anew from somewhere on, against a hash that was printed', () => {
    const forged = rehashed(
      withOpen(links, 4, (open) => ({ ...open, county: 'Other' })),
      4,
    )
    expect(kinds(forged)).toEqual([])
    expect(kinds(forged, head)).toEqual(['rewritten 9'])
  })

  test('everything gone, against a hash that was printed', () => {
    expect(kinds([], head)).toEqual(['cut-tail 1'])
  })

  test('a chain that has grown since the paper was printed still holds', () => {
    expect(kinds(links, { seq: 4, hash: links[3]?.hash ?? '' })).toEqual([])
  })

  test('a changed name that is kept beside the chain', () => {
    const first = links[0] as Link
    const kept = {
      ...first.entry.sealed.kept,
      applicator: { salt: saltOf('0 applicator'), value: { name: 'Other Person' } },
    }
    const forged = [
      { ...first, entry: { ...first.entry, sealed: { ...first.entry.sealed, kept } } },
      ...links.slice(1),
    ]
    expect(verifyChain(forged)).toEqual([{ kind: 'personal-changed', seq: 1, paths: ['applicator'] }])
  })

  test('a text that nobody of us wrote', () => {
    const forged = withOpen(links, 1, () => 'nothing of ours')
    expect(kinds(forged)).toEqual(['unreadable 2', 'personal-changed 2'])
  })

  test('any single change of any open value anywhere, and at the link where it was made', () => {
    const places = links.flatMap(({ entry }, n) =>
      Object.keys(entry.sealed.open as object).map((field) => [n, field] as const),
    )
    const value = fc.oneof(
      fc.string(),
      fc.integer(),
      fc.boolean(),
      fc.constantFrom<Json>(null, [], { none: true }, { notRecorded: true }, { value: '1', unit: 'ft2' }),
    )
    fc.assert(
      fc.property(fc.constantFrom(...places), value, ([n, field], changed) => {
        const before = openAt(n)[field]
        fc.pre(JSON.stringify(before) !== JSON.stringify(changed))
        const found = verifyChain(withOpen(links, n, (open) => ({ ...open, [field]: changed })))
        expect(found.map(({ seq }) => seq)).toContain(n + 1)
      }),
      { numRuns: 300 },
    )
  })

  test('any field taken out of any link', () => {
    const places = links.flatMap(({ entry }, n) =>
      Object.keys(entry.sealed.open as object).map((field) => [n, field] as const),
    )
    fc.assert(
      fc.property(fc.constantFrom(...places), ([n, field]) => {
        const { [field]: _, ...rest } = openAt(n)
        expect(verifyChain(withOpen(links, n, () => rest)).map(({ seq }) => seq)).toContain(n + 1)
      }),
    )
  })

  test('any reordering of any chain, and any links taken out before the last', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...links], { minLength: 1 }), (mixed) => {
        const isPrefix = mixed.every((link, n) => link === links[n])
        expect(kinds(mixed).length === 0).toBe(isPrefix)
        const isWhole = isPrefix && mixed.length === links.length
        expect(kinds(mixed, head).length === 0).toBe(isWhole)
      }),
    )
  })
})

describe('a long chain', () => {
  const inPages = (chain: readonly Link[], size: number, against?: { seq?: number; hash: string }) => {
    let walk = walkStart
    for (let from = 0; from < chain.length; from += size)
      walk = walkChain(walk, chain.slice(from, from + size), against)
    return walkEnd(walk, against).map(({ seq }) => seq)
  }

  test('is checked a page at a time with the same result, whatever the page', () => {
    const changed = fc.integer({ min: 0, max: links.length - 1 })
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10 }), changed, (size, n) => {
        expect(inPages(links, size, head)).toEqual([])
        expect(inPages(links.slice(0, 5), size, head)).toEqual([6])
        expect(
          inPages(
            withOpen(links, n, (open) => ({ ...open, county: 'X' })),
            size,
          ),
        ).toEqual([n + 1])
      }),
      { numRuns: 40 },
    )
  })
})

describe('a head on paper', () => {
  test('is read back as it was printed, with or without its place', () => {
    expect(readHead(printHead(head))).toEqual({ seq: head.seq, hash: head.hash })
    expect(readHead(` ${head.hash.toUpperCase()} `)).toEqual({ hash: head.hash })
  })

  test('anything else is none', () => {
    for (const typed of ['', 'abc', `x-${head.hash}`, head.hash.slice(1), `1-2-${head.hash}`])
      expect(readHead(typed)).toBeNull()
  })
})

test('each kind of break has a sentence that says where', () => {
  const words = loadWords()
  const all = [
    'changed-text',
    'unreadable',
    'missing-link',
    'reordered',
    'rewritten',
    'personal-changed',
    'cut-tail',
  ] as const
  for (const kind of all) expect(speakForRecord(words, sayBreak({ kind, seq: 12 }))).toMatch(/no\. 12/i)
})

test('a thousand records are verified in a moment', () => {
  const long = chainOf(1000)
  const started = performance.now()
  expect(kinds(long)).toEqual([])
  expect(performance.now() - started).toBeLessThan(5000)
})
