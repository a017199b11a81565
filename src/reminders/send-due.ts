import type { Reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { dayIn } from '#src/desk/clock.ts'
import { type Answered, languageOf } from '#src/desk/desk.ts'
import type { Registry } from '#src/desk/registry.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { type Crew, getCrew, raiseBookRevision, updateCrew } from '#src/store/crews.ts'
import { claimDue, type Delivery, letGo, markSent, markTried, postpone } from '#src/store/deliveries.ts'
import type { Database } from '#src/store/open.ts'
import type { Person } from '#src/store/people.ts'
import { type Transaction, write } from '#src/store/transaction.ts'
import { type Address, type Deliver, Unreachable } from './deliver.ts'
import type { Pace } from './pace.ts'

/**
 * Short, so that a process that was killed between sending and marking is followed up while the messenger remembers the
 * nonce, however often that happens. Who is slower than this may be overtaken: the same nonce makes no second message.
 */
const LEASE_MS = 20_000
/** Few, since a process that dies leaves all that it has claimed waiting for its lease to run out. */
const BATCH = 5
/** With a messenger that takes several at once: about a second's worth. */
export const WIDE_BATCH = 20
/**
 * A messenger drops a second copy of the same nonce for some minutes: Discord for "the past few minutes"
 * (discord.com/developers/docs, Create Message). The fewer are assumed here, the more copies say that they are one.
 */
const NONCE_KEPT_MS = 120_000
/** Someone who opens their direct messages, or speaks in a channel, hears within a day. */
const UNREACHABLE_MS = 24 * 3_600_000

/** Ids of the safety lines of a message. */
export type ChooseSafety = (reply: Reply, number: number) => readonly string[]

export interface Sending {
  readonly database: Database
  readonly deliver: Deliver
  /** Asked again and again: a look at what is due takes as long as the messenger does. */
  readonly nowMs: () => number
  /** Commands by name: each says what its messages say on the day on which they leave. */
  readonly registry?: Registry
  readonly chooseSafety: ChooseSafety
  readonly reportError: (error: unknown, about: Readonly<Record<string, unknown>>) => void
  /** Several messages may be on their way at once, each beginning when this lets it; one after another by default. */
  readonly pace?: Pace
  /** Stops the loop between two messages. */
  readonly stopped?: () => boolean
}

/** Sends everything that is due, once as people see it. One message that fails does not hold up the others. */
export async function sendDue(sending: Sending): Promise<number> {
  const { database, nowMs, pace } = sending
  const limit = pace === undefined ? BATCH : WIDE_BATCH
  // What is free is what was free when the look began: nothing that fails is tried twice in it.
  const beganMs = nowMs()
  let sent = 0
  for (;;) {
    const untilMs = nowMs() + LEASE_MS
    const claimed = await write(database, (db) =>
      claimDue(db, database.words, { nowMs: beganMs, leaseMs: untilMs - beganMs, limit }),
    )
    const left: number[] = []
    const inTurn = async (deliveries: readonly Delivery[]) => {
      for (const [at, delivery] of deliveries.entries()) {
        await pace?.()
        // The rest of a batch that took too long may be another process's by now.
        if (nowMs() >= untilMs) return
        if (sending.stopped?.()) {
          left.push(...deliveries.slice(at).map(({ id }) => id))
          return
        }
        if (await sendOne(sending, delivery)) sent += 1
      }
    }
    await Promise.all((pace === undefined ? [claimed] : byPerson(claimed)).map(inTurn))
    // Whoever comes next need not wait for the lease of a process that has left in order.
    if (left.length > 0) await write(database, (db) => letGo(db, left))
    if (claimed.length < limit || sending.stopped?.()) return sent
  }
}

/** What is for one person leaves in its order; nobody waits for another. */
function byPerson(deliveries: readonly Delivery[]): readonly (readonly Delivery[])[] {
  const lanes = new Map<number, Delivery[]>()
  for (const one of deliveries) lanes.set(one.personId, [...(lanes.get(one.personId) ?? []), one])
  return [...lanes.values()]
}

async function sendOne(sending: Sending, delivery: Delivery): Promise<boolean> {
  try {
    const ready = await prepare(sending, delivery)
    if (ready !== null) await sending.deliver(ready.address, ready.answered, delivery.nonce)
    await write(sending.database, (db) => markSent(db, delivery.id, sending.nowMs()))
    return ready !== null
  } catch (error) {
    sending.reportError(error, { delivery: delivery.id })
    if (error instanceof Unreachable)
      await write(sending.database, (db) => postpone(db, delivery.id, sending.nowMs() + UNREACHABLE_MS))
    return false
  }
}

/** Keeps the message as a turn, so that its buttons work; the nonce makes a second attempt the same turn. */
async function prepare(
  sending: Sending,
  delivery: Delivery,
): Promise<{ address: Address; answered: Answered } | null> {
  return write(sending.database, async (db) => {
    await sending.database.words.lockCrew(db, delivery.crewId)
    const nowMs = sending.nowMs()
    const crew = await getCrew(db, delivery.crewId)
    const store = crewStore(db, delivery.crewId)
    const person = await store.people.get(delivery.personId)
    if (crew === undefined || person === undefined) throw new Error('Cannot find whom a message is for')
    const requestId = `deliver:${delivery.nonce}`
    const row = await store.turns.create({
      requestId,
      personId: person.id,
      command: delivery.command,
      asked: { kind: 'deliver', nonce: delivery.nonce },
      atMs: nowMs,
      day: dayIn(crew.zone, nowMs),
    })
    if (row !== undefined) {
      const leaving = await leavingReply(sending, delivery, { db, crew, store, person, turn: row, nowMs })
      if (leaving === null) {
        await store.turns.remove(row.id)
        return null
      }
      const chosen = [...sending.chooseSafety(leaving, row.number)]
      const reply = { ...leaving, safety: { ...leaving.safety, chosen } }
      await store.turns.finish(row.id, delivery.command, reply, null)
    }
    const turn = await store.turns.findByRequest(requestId)
    if (turn === undefined) throw new Error('Cannot find the turn just made')
    await markTried(db, delivery.id, nowMs)
    return {
      address: { crewKey: crew.key, personKey: person.key, channelKey: channelOf(turn.reply, crew, person) },
      answered: {
        reply: markRepeat(turn.reply, delivery, nowMs),
        number: turn.number,
        turnId: turn.id,
        language: { person: person.language ?? crew.language, crew: crew.language },
        zone: crew.zone,
        replayed: row === undefined,
        demo: crew.demo,
      },
    }
  })
}

/** What is for the crew shows in the channel that it has chosen, else where this person was last heard. */
function channelOf({ audience }: Reply, { settings }: Crew, person: Person): string | null {
  return (audience === 'crew' ? settings.notices.channel : null) ?? person.lastChannelKey
}

interface Leaving {
  readonly db: Transaction
  readonly crew: Crew
  readonly store: CrewStore
  readonly person: Person
  readonly turn: { readonly id: number; readonly number: number }
  readonly nowMs: number
}

async function leavingReply(
  { registry }: Sending,
  { command, reply }: Delivery,
  { db, ...here }: Leaving,
): Promise<Reply | null> {
  const leaving = registry?.get(command)?.leaving
  if (leaving === undefined) return reply
  return leaving(reply, {
    ...here,
    isLead: here.person.leads,
    today: dayIn(here.crew.zone, here.nowMs),
    channelKey: here.person.lastChannelKey,
    locale: languageOf(here.person.language ?? here.crew.language),
    heard: null,
    texts: new Map(),
    canWrite: true,
    updateCrew: (change) => updateCrew(db, here.crew.id, change),
    namesChanged: () => raiseBookRevision(db, here.crew.id),
  })
}

/** A copy that the messenger would no longer drop says that it may be one. */
function markRepeat(reply: Reply, { triedAtMs }: Delivery, nowMs: number): Reply {
  const isOld = triedAtMs !== null && nowMs - triedAtMs >= NONCE_KEPT_MS
  return isOld ? { ...reply, lines: [say('visits.repeated'), ...reply.lines] } : reply
}
