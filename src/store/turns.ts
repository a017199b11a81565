import { type ExpressionBuilder, type Kysely, sql } from 'kysely'
import { z } from 'zod'
import { Json } from '#src/conversation/json.ts'
import { Reply } from '#src/conversation/reply.ts'
import { remember } from '#src/memory/remember.ts'
import { prepared } from './prepared.ts'
import { readerAndWriter } from './remembered.ts'
import type { Tables } from './tables.ts'
import type { Transaction } from './transaction.ts'

/** A conversation's state: plain data with the version of the command that wrote it. */
export const State = z.strictObject({ version: z.number().int(), data: Json })
export type State = z.infer<typeof State>

export interface Turn {
  readonly id: number
  readonly number: number
  readonly personId: number
  readonly command: string
  readonly reply: Reply
  readonly state: State | null
  readonly closedBy: string | null
}

export interface AnswerLine {
  readonly number: number
  readonly personId: number
  readonly command: string
  readonly outcome: string
  readonly asked: string
  readonly reply: Reply
  readonly createdAtMs: number
}

/** An answer as a messenger shows it again, with who asked what. */
export interface ShownTurn {
  readonly id: number
  readonly number: number
  readonly personId: number
  /** What was asked, as it is kept: JSON. */
  readonly asked: string
  readonly reply: Reply
  readonly isClosed: boolean
  readonly createdAtMs: number
}

interface NewTurn {
  readonly requestId: string
  readonly personId: number
  readonly command: string
  readonly asked: unknown
  readonly atMs: number
  readonly day: string
}

type Row = {
  id: number
  number: number
  personId: number
  command: string
  reply: string
  state: string | null
  closedBy: string | null
}
const COLUMNS = ['id', 'number', 'personId', 'command', 'reply', 'state', 'closedBy'] as const

/** Answers whose buttons are pressed next, or that are held against the next of their kind. */
const MOST_REPLIES = 100
const replies = readerAndWriter(Reply, MOST_REPLIES)

const read = (row: Row): Turn => ({
  ...row,
  reply: replies.read(row.reply),
  state: row.state === null ? null : State.parse(JSON.parse(row.state)),
})

const open = prepared(
  (
    db,
    crewId: number,
    requestId: string,
    personId: number,
    command: string,
    asked: string,
    createdAtMs: number,
    day: string,
  ) =>
    db
      .insertInto('turns')
      .values({
        crewId,
        requestId,
        number: sql<number>`(select coalesce(max(number), 0) + 1 from turns where crew_id = ${crewId})`,
        personId,
        command,
        asked,
        outcome: '',
        reply: '',
        state: null,
        closedBy: null,
        createdAtMs,
        day,
      })
      .onConflict((on) => on.columns(['crewId', 'requestId']).doNothing())
      .returning(['id', 'number']),
)
const answer = prepared(
  (db, crewId: number, id: number, command: string, outcome: string, reply: string, state: string | null) =>
    db
      .updateTable('turns')
      .set({ command, outcome, reply, state })
      .where('crewId', '=', crewId)
      .where('id', '=', id),
)
const turnById = prepared((db, crewId: number, id: number) =>
  db
    .selectFrom('turns')
    .select(COLUMNS)
    .where('crewId', '=', crewId)
    .where('outcome', '!=', '')
    .where('id', '=', id),
)
const turnByRequest = prepared((db, crewId: number, requestId: string) =>
  db
    .selectFrom('turns')
    .select(COLUMNS)
    .where('crewId', '=', crewId)
    .where('outcome', '!=', '')
    .where('requestId', '=', requestId),
)
const closeTurn = prepared((db, closedBy: string, crewId: number, id: number) =>
  db
    .updateTable('turns')
    .set({ closedBy })
    .where('crewId', '=', crewId)
    .where('id', '=', id)
    .where('closedBy', 'is', null)
    .returning('id'),
)
const LINE = ['number', 'personId', 'command', 'outcome', 'asked', 'reply', 'createdAtMs'] as const

/**
 * The answers of one day. Numbers are given in the order in which days come, so they lie between its first and its last:
 * by whatever index they are looked for, those of other days stay unread.
 */
const onDay = (crewId: number, day: string) => (is: ExpressionBuilder<Tables, 'turns'>) => {
  const numbers = is.selectFrom('turns').where('crewId', '=', crewId).where('day', '=', day)
  return is.and([
    is('day', '=', day),
    is(
      'number',
      '>=',
      numbers.select(({ fn }) => fn.min<number>('number').as('first')),
    ),
    is(
      'number',
      '<=',
      numbers.select(({ fn }) => fn.max<number>('number').as('last')),
    ),
  ])
}

interface Wanted {
  readonly personId?: number | undefined
  readonly day?: string | undefined
  readonly command?: string | undefined
  readonly limit: number
}

/**
 * The newest answers of this kind. Their numbers are looked up first, in an index that holds all that is asked for, and
 * only their own rows are read: a crew gives thousands of answers a day, each some kilobytes long.
 */
const newestOf = (db: Kysely<Tables>, crewId: number, { personId, day, command, limit }: Wanted) =>
  db
    .selectFrom('turns')
    .select(LINE)
    .where('crewId', '=', crewId)
    .where('number', 'in', (is) => {
      let query = is.selectFrom('turns').select('number').where('crewId', '=', crewId)
      if (personId !== undefined) query = query.where('personId', '=', personId)
      if (day !== undefined) query = query.where(onDay(crewId, day))
      if (command !== undefined) query = query.where('command', '=', command)
      return query.where('outcome', '!=', '').orderBy('number', 'desc').limit(limit)
    })
    .orderBy('number', 'desc')

/** By how many are wanted, which stands in the words of the statement; callers know a handful of numbers. */
const newestOfDay = remember(
  (limit) =>
    prepared((db, crewId: number, personId: number, day: string, command: string) =>
      newestOf(db, crewId, { personId, day, command, limit: Number(limit) }),
    ),
  20,
)
const whoClosed = prepared((db, crewId: number, id: number) =>
  db.selectFrom('turns').select('closedBy').where('crewId', '=', crewId).where('id', '=', id),
)

export function turnsOf(db: Transaction, crewId: number) {
  /** A row without an outcome belongs to a request that is still at work. */
  const answered = () =>
    db.selectFrom('turns').select(COLUMNS).where('crewId', '=', crewId).where('outcome', '!=', '')

  return {
    /** Makes the turn's row, or nothing when this request has been answered already. */
    async create(turn: NewTurn): Promise<{ id: number; number: number } | undefined> {
      const { requestId, personId, command, asked, atMs, day } = turn
      const { rows } = await open(db, crewId, requestId, personId, command, JSON.stringify(asked), atMs, day)
      return rows[0]
    },

    /** `command` is the one that answered, which is not always the one that was asked: its choices lead back to it. */
    async finish(id: number, command: string, reply: Reply, state: State | null): Promise<void> {
      const kept = state === null ? null : JSON.stringify(state)
      await answer(db, crewId, id, command, reply.outcome, replies.write(reply), kept)
    },

    /** A row that was made for nothing: another press had been answered first. */
    async remove(id: number): Promise<void> {
      await db.deleteFrom('turns').where('crewId', '=', crewId).where('id', '=', id).execute()
    },

    async get(id: number): Promise<Turn | undefined> {
      const [row] = (await turnById(db, crewId, id)).rows
      return row === undefined ? undefined : read(row)
    },

    /** Whether what could be pressed there is used up. */
    async isClosed(id: number): Promise<boolean> {
      const [row] = (await whoClosed(db, crewId, id)).rows
      return typeof row?.closedBy === 'string'
    },

    async findByNumber(number: number): Promise<Turn | undefined> {
      const row = await answered().where('number', '=', number).executeTakeFirst()
      return row === undefined ? undefined : read(row)
    },

    async findByRequest(requestId: string): Promise<Turn | undefined> {
      const [row] = (await turnByRequest(db, crewId, requestId)).rows
      return row === undefined ? undefined : read(row)
    },

    /** True for whoever comes first; the turn is then closed to everybody else. */
    async close(id: number, requestId: string): Promise<boolean> {
      return (await closeTurn(db, requestId, crewId, id)).rows.length > 0
    },

    /** The latest answers of the whole crew, oldest first. Whoever shows them minds whom each is for. */
    async listLatest(limit: number): Promise<ShownTurn[]> {
      const rows = await db
        .selectFrom('turns')
        .select(['id', 'number', 'personId', 'asked', 'reply', 'closedBy', 'createdAtMs'])
        .where('crewId', '=', crewId)
        .where('outcome', '!=', '')
        .orderBy('id', 'desc')
        .limit(limit)
        .execute()
      return rows.reverse().map(({ closedBy, reply, ...row }) => ({
        ...row,
        reply: Reply.parse(JSON.parse(reply)),
        isClosed: closedBy !== null,
      }))
    },

    /** Newest first. */
    async list(wanted: Wanted): Promise<AnswerLine[]> {
      const { personId, day, command, limit } = wanted
      const { rows } =
        personId !== undefined && day !== undefined && command !== undefined
          ? await newestOfDay(String(limit))(db, crewId, personId, day, command)
          : { rows: await newestOf(db, crewId, wanted).execute() }
      return rows.map(lineOf)
    },
  }
}

/** Whole replies are long, and most who look through a list stop at one of the first: each is read when it is wanted. */
function lineOf({ reply: text, ...row }: Omit<AnswerLine, 'reply'> & { readonly reply: string }): AnswerLine {
  let read: Reply | null = null
  return {
    ...row,
    get reply() {
      read ??= replies.read(text)
      return read
    },
  }
}
