import { type ChainHead, chainHeads } from '#src/store/chain-heads.ts'
import { problemsOfSqlite } from '#src/store/copy-sqlite.ts'
import { type DatabaseAddress, openDatabase } from '#src/store/open.ts'
import { readOnly } from '#src/store/transaction.ts'
import { checkRecords } from './check-records.ts'
import { type Deed, numberIn, shownText } from './people.ts'

/** What was promised and is not in the store, or is there more than once. */
export interface Findings {
  readonly lost: readonly string[]
  readonly doubled: readonly string[]
  /** Reminders that came once more and said that they may have come before. */
  readonly repeats: number
  /** Anything else that does not hold. */
  readonly wrong: readonly string[]
  readonly chain: readonly ChainHead[]
  readonly answers: number
  readonly records: number
}

/** Messages of one reminder, and how many of them say that they may be a copy. */
export interface Copies {
  readonly messages: number
  readonly marked: number
}

export interface Seen {
  readonly deeds: readonly Deed[]
  /** Nonces of reminders that were due, with what came of each. */
  readonly reminders: ReadonlyMap<string, Copies>
  readonly database: DatabaseAddress
  readonly crewKey: string
}

/** Holds the store against everything that the people were told. */
export async function check({ deeds, reminders, database, crewKey }: Seen): Promise<Findings> {
  const lost: string[] = []
  const doubled: string[] = []
  const wrong: string[] = database.engine === 'sqlite' ? problemsOfSqlite(database.path) : []
  const store = await openDatabase(database, 'live')
  try {
    const crew = await store.db
      .selectFrom('crews')
      .select('id')
      .where('key', '=', crewKey)
      .executeTakeFirstOrThrow()
    const turns = await store.db
      .selectFrom('turns')
      .selectAll()
      .where('crewId', '=', crew.id)
      .orderBy('number')
      .execute()
    const byRequest = new Map(turns.map((turn) => [turn.requestId, turn]))
    const byNumber = new Map(turns.map((turn) => [turn.number, turn]))
    const events = await store.db
      .selectFrom('sprayerEvents')
      .selectAll()
      .where('crewId', '=', crew.id)
      .execute()
    const sprayers = await store.db
      .selectFrom('sprayers')
      .select('name')
      .where('crewId', '=', crew.id)
      .execute()
    const deliveries = await store.db.selectFrom('deliveries').selectAll().execute()

    for (const turn of turns) if (turn.outcome === '') wrong.push(`answer ${turn.number} was never finished`)
    turns.forEach(({ number }, at) => {
      if (number !== at + 1) wrong.push(`after answer ${at} comes ${number}`)
    })
    for (const [at, { turnId, id }] of events.entries())
      if (events.findIndex((one) => one.turnId === turnId && turnId !== null) < at && turnId !== null)
        doubled.push(`event ${id} of turn ${turnId}`)

    const pours = new Map<string, Set<number>>()
    for (const deed of deeds) {
      const text = shownText(deed.fired)
      const own = byRequest.get(deed.fired.id)
      const number = text === null ? null : numberIn(text)
      // Shown again, an answer carries the number that it got first.
      const turn = number === null ? own : byNumber.get(number)
      if (number !== null && turn === undefined) lost.push(`answer ${number} to ${deed.kind}`)
      if (number !== null && own !== undefined && own.number !== number)
        wrong.push(`${deed.kind} was told answer ${number} and is kept as ${own.number}`)
      const event = turn === undefined ? undefined : events.find(({ turnId }) => turnId === turn.id)
      const isDone = number !== null && turn?.outcome === 'answer'
      if (isDone && (deed.kind === 'cleaned' || deed.kind === 'pour') && event === undefined)
        lost.push(`what answer ${number} says was ${deed.kind}`)
      if (deed.kind === 'pour' && event?.kind === 'poured')
        pours.set(deed.mix, (pours.get(deed.mix) ?? new Set()).add(event.id))
      if (deed.kind === 'sprayer') {
        const found = sprayers.filter(({ name }) => name === deed.name).length
        if (isDone && found === 0) lost.push(`sprayer ${deed.name}`)
        if (found > 1) doubled.push(`sprayer ${deed.name}`)
      }
    }
    for (const [mix, ids] of pours) if (ids.size > 1) doubled.push(`pouring of ${mix}`)
    for (const [nonce, { messages, marked }] of reminders) {
      const row = deliveries.find((one) => one.nonce === nonce)
      if (messages === 0 || row === undefined) lost.push(`reminder ${nonce}`)
      // Once the messenger has forgotten a nonce a copy may come, and says that it may be one.
      if (messages - marked > 1) doubled.push(`reminder ${nonce}`)
      if (row !== undefined && row.sentAtMs === null) wrong.push(`reminder ${nonce} is not marked as sent`)
    }
    const chain = await readOnly(store, chainHeads)
    const records = await store.db.selectFrom('records').select('id').execute()
    if (records.length > 0 && !chain.some(({ links }) => links >= records.length))
      wrong.push(`${records.length} records and a chain without them`)
    const kept = await checkRecords(store, crew.id, deeds)
    lost.push(...kept.lost)
    doubled.push(...kept.doubled)
    wrong.push(...kept.wrong)
    const repeats = [...reminders.values()].reduce((sum, { marked }) => sum + marked, 0)
    return { lost, doubled, wrong, repeats, chain, answers: turns.length, records: records.length }
  } finally {
    await store.close()
  }
}
