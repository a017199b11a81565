import { expect, test } from 'vitest'
import { type Attachment, reply } from '#src/conversation/reply.ts'
import { asTyped, literalText } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import { drawFiles } from '#src/messengers/discord/pictures.ts'
import { type Draw, inMemory } from '#src/messengers/draw.ts'
import { loadWords } from '#src/words/load.ts'

const words = loadWords()
const quiet = { debug() {}, info() {}, warn() {}, error() {} }

const answered = (files: readonly Attachment[]): Answered => ({
  reply: reply('answer', asTyped('x'), { files: [...files] }),
  number: 1,
  turnId: 1,
  language: { person: 'en', crew: 'en' },
  zone: 'America/New_York',
  replayed: false,
  demo: false,
})

/** An answer with one paper, which comes as files of these sizes. */
async function sent(sizes: readonly number[], mostBytes: number) {
  const draw: Draw = async function* draw(file, { mostBytes: told }) {
    expect(told).toBe(mostBytes)
    for (const [at, size] of sizes.entries())
      yield {
        ...inMemory(`${at}-${file.name}`, 'text/csv', new Uint8Array(size)),
        alt: literalText(`part ${at}`),
      }
  }
  const paper = { name: 'records.csv', alt: asTyped('records'), from: { paper: 'records', data: {} } }
  const { files, missing } = await drawFiles({ draw, words, log: quiet as never }, answered([paper]), {
    locale: 'en',
    mostBytes,
  })
  return { names: files.map(({ name }) => name), alts: files.map(({ alt }) => alt), missing }
}

test('every part of one paper is sent under a name of its own, and says what it holds', async () => {
  expect(await sent([1, 2, 3], 10)).toEqual({
    names: ['1_0-records.csv', '2_1-records.csv', '3_2-records.csv'],
    alts: ['part 0', 'part 1', 'part 2'],
    missing: [],
  })
})

test('a part that is too large is named, and the others still go out', async () => {
  expect(await sent([1, 11, 3], 10)).toMatchObject({ alts: ['part 0', 'part 2'], missing: ['part 1'] })
})

test('a message holds ten files; further parts are named', async () => {
  const { alts, missing } = await sent(Array(12).fill(1), 10)
  expect(alts).toHaveLength(10)
  expect(missing).toEqual(['part 10', 'part 11'])
})

test('several files of one answer share what a message may carry', async () => {
  const told: number[] = []
  const draw: Draw = async function* draw(file, { mostBytes }) {
    told.push(mostBytes)
    yield inMemory(file.name, 'image/jpeg', new Uint8Array(mostBytes))
  }
  const photos = Array.from({ length: 4 }, (_, at) => ({
    name: `photo-${at}.jpg`,
    alt: asTyped('photo'),
    from: { blob: 'x' },
  }))
  const MEBIBYTE = 1024 * 1024
  const { files, missing } = await drawFiles({ draw, words, log: quiet as never }, answered(photos), {
    locale: 'en',
    mostBytes: 10 * MEBIBYTE,
  })
  expect([files.length, missing]).toEqual([4, []])
  expect(told).toEqual(Array(4).fill(6 * MEBIBYTE))
})
