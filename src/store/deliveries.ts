import { Reply } from '#src/conversation/reply.ts'
import type { EngineWords } from './dialect.ts'
import { prepared } from './prepared.ts'
import type { Transaction } from './transaction.ts'

/** A message that leaves unasked, to one person. */
export interface Delivery {
  readonly id: number
  readonly crewId: number
  readonly personId: number
  /** The command whose buttons the message carries. */
  readonly command: string
  readonly reply: Reply
  /** The same for every attempt, so that the messenger can drop a second copy. */
  readonly nonce: string
  readonly dueAtMs: number
  /** True when an earlier attempt was begun and never finished: it may have been seen. */
  readonly retried: boolean
  /** When the first attempt began of which nobody knows how it ended; null when nothing can have been seen. */
  readonly triedAtMs: number | null
}

/** A planned message as its sender finds it again. */
export type PlannedDelivery = Pick<Delivery, 'nonce' | 'reply' | 'dueAtMs'> & {
  readonly sentAtMs: number | null
}

const planOne = prepared(
  (
    db,
    crewId: number,
    personId: number,
    command: string,
    reply: string,
    nonce: string,
    dueAtMs: number,
    createdAtMs: number,
  ) =>
    db
      .insertInto('deliveries')
      .values({
        crewId,
        personId,
        command,
        reply,
        nonce,
        dueAtMs,
        claimedUntilMs: null,
        sentAtMs: null,
        triedAtMs: null,
        createdAtMs,
      })
      .onConflict((on) => on.columns(['crewId', 'nonce']).doNothing()),
)

export function deliveriesOf(db: Transaction, crewId: number) {
  return {
    async plan(
      delivery: Pick<Delivery, 'personId' | 'command' | 'reply' | 'nonce' | 'dueAtMs'>,
      atMs: number,
    ) {
      const { personId, command, reply, nonce, dueAtMs } = delivery
      await planOne(db, crewId, personId, command, JSON.stringify(reply), nonce, dueAtMs, atMs)
    },

    /** Messages by their nonces, whether they have left or not. */
    async list(nonces: readonly string[]): Promise<PlannedDelivery[]> {
      if (nonces.length === 0) return []
      const rows = await db
        .selectFrom('deliveries')
        .select(['nonce', 'reply', 'dueAtMs', 'sentAtMs'])
        .where('crewId', '=', crewId)
        .where('nonce', 'in', [...nonces])
        .orderBy('id')
        .execute()
      return rows.map((row) => ({ ...row, reply: Reply.parse(JSON.parse(row.reply)) }))
    },

    /** Takes back messages that have not left yet. */
    async withdraw(nonces: readonly string[]): Promise<void> {
      if (nonces.length === 0) return
      await db
        .deleteFrom('deliveries')
        .where('crewId', '=', crewId)
        .where('nonce', 'in', [...nonces])
        .where('sentAtMs', 'is', null)
        .execute()
    },

    /** People for whom a message of this command waits to be sent. */
    async waitingFor(command: string): Promise<ReadonlySet<number>> {
      const rows = await db
        .selectFrom('deliveries')
        .select('personId')
        .where('crewId', '=', crewId)
        .where('command', '=', command)
        .where('sentAtMs', 'is', null)
        .execute()
      return new Set(rows.flatMap(({ personId }) => (personId === null ? [] : [personId])))
    },
  }
}

/**
 * Takes what is due, oldest first, for the length of a lease. No row lock is held while a message is on its way; a
 * process that dies leaves a lease that runs out.
 */
export async function claimDue(
  db: Transaction,
  words: EngineWords,
  claim: { readonly nowMs: number; readonly leaseMs: number; readonly limit: number },
): Promise<Delivery[]> {
  // No claim reaches further ahead than this: one that does was made by a clock that ran ahead and was put right since.
  const beyondMs = claim.nowMs + LONGEST_CLAIM_MS
  const free = await db
    .selectFrom('deliveries')
    .select(['id', 'claimedUntilMs'])
    .where('sentAtMs', 'is', null)
    .where('dueAtMs', '<=', claim.nowMs)
    .where((row) =>
      row.or([
        row('claimedUntilMs', 'is', null),
        row('claimedUntilMs', '<=', claim.nowMs),
        row('claimedUntilMs', '>', beyondMs),
      ]),
    )
    .orderBy('dueAtMs')
    .orderBy('id')
    .limit(claim.limit)
    .modifyEnd(words.skipLocked)
    .execute()
  if (free.length === 0) return []
  const retried = new Set(free.filter((row) => row.claimedUntilMs !== null).map((row) => row.id))
  const rows = await db
    .updateTable('deliveries')
    .set({ claimedUntilMs: claim.nowMs + claim.leaseMs })
    .where(
      'id',
      'in',
      free.map((row) => row.id),
    )
    .returning(['id', 'crewId', 'personId', 'command', 'reply', 'nonce', 'dueAtMs', 'triedAtMs'])
    .execute()
  return rows
    .map((row) => ({
      ...row,
      personId: row.personId ?? 0,
      reply: Reply.parse(JSON.parse(row.reply)),
      retried: retried.has(row.id),
    }))
    .sort((one, other) => one.dueAtMs - other.dueAtMs || one.id - other.id)
}

/** Notes that an attempt begins now; of several that nobody saw end, the first counts. */
export async function markTried(db: Transaction, id: number, atMs: number): Promise<void> {
  await db
    .updateTable('deliveries')
    .set({ triedAtMs: atMs })
    .where('id', '=', id)
    .where('triedAtMs', 'is', null)
    .execute()
}

/** The longest for which a message is left alone, and the hour by which a zone may move a clock. */
export const LONGEST_CLAIM_MS = 25 * 3_600_000

/** The messenger has refused it, so nobody has seen it: it is left alone until then. */
export async function postpone(db: Transaction, id: number, untilMs: number): Promise<void> {
  await db
    .updateTable('deliveries')
    .set({ claimedUntilMs: untilMs, triedAtMs: null })
    .where('id', '=', id)
    .execute()
}

/** What was claimed and not begun is free again. */
export async function letGo(db: Transaction, ids: readonly number[]): Promise<void> {
  await db
    .updateTable('deliveries')
    .set({ claimedUntilMs: null })
    .where('id', 'in', [...ids])
    .where('sentAtMs', 'is', null)
    .execute()
}

export async function markSent(db: Transaction, id: number, atMs: number): Promise<void> {
  await db.updateTable('deliveries').set({ sentAtMs: atMs }).where('id', '=', id).execute()
}
