import { createHash, createHmac } from 'node:crypto'
import { expect, test } from 'vitest'
import type { Format, Reader } from '#src/papers/order.ts'
import { RecordDraft } from '#src/record/record.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { openDatabase } from '#src/store/open.ts'
import { keepAmendment, keepRecord } from '#tests/helpers/keep-record.ts'
import { aProduct, aSite } from '#tests/helpers/rows.ts'
import { english, product } from '#tests/record/build.ts'
import { drawnOne, ordered } from './orders.ts'

const OWN = { customerName: 'Demo customer Ottiline Fenn' }
const OTHER = 'Demo customer Bramwell Oake'

/** Two properties of two customers, one record each; the first was written for the wrong customer and put right. */
async function twoCustomers(store: CrewStore, personId: number) {
  const own = await aSite(store, { name: 'Own property' })
  const other = await aSite(store, { name: 'Other property' })
  await keepRecord(store, {
    personId,
    record: {
      siteId: own.id,
      customerName: OTHER,
      notes: english(`next door to ${OTHER}`),
      leftoverFate: { fate: 'other', words: english(`sprayed at ${OTHER}`) },
      supervisor: { name: 'Demo Supervisor', license: { number: 'DEMO-L2' } },
    },
  })
  await keepAmendment(store, 1, {
    why: english(`it was not the job of ${OTHER}`),
    changes: [{ field: 'customerName', before: OTHER, after: OWN.customerName }],
  })
  await keepAmendment(store, 1, {
    number: 'R1-A2',
    changes: [
      { field: 'notes', before: english(`next door to ${OTHER}`), after: english(`beside ${OTHER}`) },
    ],
  })
  await keepRecord(store, {
    personId,
    record: { siteId: other.id, customerName: OTHER, license: { number: 'DEMO-L3' } },
  })
  return own.id
}

async function paperFor(reader: Reader, format: Exclude<Format, 'pdf'>, ofSite: boolean) {
  const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
  const order = await ordered(database, async (store, personId) => {
    const siteId = await twoCustomers(store, personId)
    return { reader, format, filter: ofSite ? { siteId } : {} }
  })
  const { text } = await drawnOne(database, order)
  await database.close()
  return text
}

test.each(['csv', 'json'] as const)(
  'a customer’s %s holds that property and nobody else’s data',
  async (format) => {
    const text = await paperFor('customer', format, true)
    expect(text).toContain(OWN.customerName)
    expect(text).toContain('DEMO-L1')
    expect(text).toContain('R1-A1')
    for (const stranger of [
      OTHER,
      'Other property',
      'R2',
      'DEMO-L2',
      'DEMO-L3',
      'R1-A2',
      'next door',
      'not the job of',
    ])
      expect(text).not.toContain(stranger)
  },
)

test.each(['csv', 'json'] as const)(
  'whoever treats somebody gets products in %s, and nobody’s name',
  async (format) => {
    const text = await paperFor('treating', format, false)
    for (const part of ['Invented 75 WDG', '9999999-1', 'inventol', '75 % ai']) expect(text).toContain(part)
    for (const person of [
      'Ottiline',
      'Bramwell',
      'Quillfern',
      'Supervisor',
      'Demo Lane',
      'property',
      'DEMO-L',
    ])
      expect(text).not.toContain(person)
  },
)

test('whoever treats somebody reads the first aid of the label, or that it has to be read on the label itself', async () => {
  const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
  const order = await ordered(database, async (store, personId) => {
    const { body, revisionId } = await aProduct(store, personId, {
      name: 'Invented first aid 1 SC',
      safety: {
        mixing: ['x'],
        spraying: ['x'],
        firstAid: [{ after: 'eyes', words: 'Rinse with plenty of water.' }],
      },
    })
    await keepRecord(store, {
      personId,
      record: { products: [product({ name: body.name, revisionId }), product()] },
    })
    return { reader: 'treating' }
  })
  const { text } = await drawnOne(database, order)
  await database.close()
  expect(text).toContain('"If in eyes: Rinse with plenty of water."')
  expect(text).toContain('"Not in the label book. Read the label itself."')
})

interface InspectorsJson {
  readonly records: readonly {
    readonly record: string
    readonly written: unknown
    readonly now: unknown
    readonly chain: readonly {
      readonly seq: number
      readonly previous: string
      readonly hash: string
      readonly text: string
      readonly personal: readonly { readonly path: string; readonly salt: string; readonly value: string }[]
    }[]
  }[]
}

test('an inspector’s JSON holds everything, and its chain can be checked with tools of anybody’s own', async () => {
  const read = JSON.parse(await paperFor('inspector', 'json', false)) as InspectorsJson
  expect(read.records.map(({ record }) => record)).toEqual(['R1', 'R2'])
  for (const { now } of read.records) {
    const { number, writtenAt, writtenBy, writtenThrough, chatLanguage, rules, ...said } = now as Record<
      string,
      unknown
    >
    expect(
      [number, writtenAt, writtenBy, writtenThrough, chatLanguage, rules].every((one) => one !== undefined),
    ).toBe(true)
    expect(RecordDraft.safeParse(said).success).toBe(true)
  }
  const links = read.records.flatMap(({ chain }) => chain).sort((a, b) => a.seq - b.seq)
  expect(links.map(({ seq }) => seq)).toEqual([1, 2, 3, 4])
  let before = '0'.repeat(64)
  for (const { seq, previous, hash, text, personal } of links) {
    expect(previous).toBe(before)
    expect(createHash('sha256').update(`${previous}\n${seq}\n${text}`).digest('hex')).toBe(hash)
    for (const { path, salt, value } of personal)
      expect(text).toContain(
        createHmac('sha256', Buffer.from(salt, 'hex')).update(`${path}\n${value}`).digest('hex'),
      )
    before = hash
  }
})
