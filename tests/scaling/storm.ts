import { PER_SECOND } from '#src/reminders/pace.ts'
import { WIDE_BATCH } from '#src/reminders/send-due.ts'

/**
 * Where crews work, as a share, with the hour UTC at which it is 7 in the morning in summer. Shares of people by zone,
 * rounded, from memory: Eastern 47, Central 29, Mountain 7, Pacific 17 of 100.
 */
export const ZONES = [
  { name: 'Eastern', share: 0.47, hourUtc: 11 },
  { name: 'Central', share: 0.29, hourUtc: 12 },
  { name: 'Mountain', share: 0.07, hourUtc: 13 },
  { name: 'Pacific', share: 0.17, hourUtc: 14 },
] as const

/** Requests a second that the platform takes from a bot (discord.com/developers/docs, topics/rate-limits). */
const PLATFORM_PER_SECOND = 50

export interface StormParts {
  readonly crews: number
  /** Messages of one crew that morning. */
  readonly messages: number
  readonly processes: number
  /** Share of messages to people whose channel this process does not know yet: one request more each. */
  readonly strangers: number
  /** From a request until its answer. */
  readonly latencyMs: number
  /** What the store takes for a claim, and for each message beside it. */
  readonly claimMs: number
  readonly messageMs: number
  /** Requests a second that the bot makes for other things, interactions not counted. */
  readonly otherPerSecond: number
  /** Messages a second that all processes agree on. @default the program's own */
  readonly perSecond?: number
  /** Requests a second that the platform takes. @default what it takes of a bot that was granted no more */
  readonly platformPerSecond?: number
}

export const USUAL: Omit<StormParts, 'crews'> = {
  messages: 2,
  processes: 1,
  strangers: 0.2,
  latencyMs: 150,
  claimMs: 5,
  messageMs: 5,
  otherPerSecond: 5,
}

export interface Storm {
  readonly crews: number
  readonly messages: number
  /** When the last message of the morning had left, from the first zone's 7 o'clock; minutes. */
  readonly minutes: number
  /** How late the latest message of each zone was, minutes. */
  readonly lateMinutes: Readonly<Record<string, number>>
  readonly sentPerSecond: number
  /** Requests that the platform told to come later. */
  readonly refused: number
  readonly mostRequestsASecond: number
}

/**
 * Every crew's messages are due at 7 in its own morning; the processes claim the oldest first, a batch each, and send
 * at the pace that all share. A request above the platform's limit is told to come in the next second.
 */
export function simulateStorm(parts: StormParts): Storm {
  const { processes, perSecond = PER_SECOND, platformPerSecond = PLATFORM_PER_SECOND } = parts
  const gapMs = (1000 * processes) / perSecond
  const queue = ZONES.map(({ name, share, hourUtc }) => ({
    name,
    dueMs: (hourUtc - ZONES[0].hourUtc) * 3_600_000,
    left: Math.round(parts.crews * share) * parts.messages,
    lateMs: 0,
  }))
  const all = queue.reduce((sum, { left }) => sum + left, 0)
  const requests = new Map<number, number>()
  const senders = Array.from({ length: processes }, (_, at) => ({
    // They begin their looks at different moments.
    atMs: (at * 15_000) / processes,
    freeMs: 0,
  }))
  let [refused, most, sent, strange, endMs] = [0, 0, 0, 0, 0]

  /** When the platform takes a request that is made then. */
  const taken = (atMs: number): number => {
    for (let second = Math.floor(atMs / 1000), ms = atMs; ; second += 1, ms = second * 1000) {
      const count = requests.get(second) ?? parts.otherPerSecond
      if (count < platformPerSecond) {
        requests.set(second, count + 1)
        most = Math.max(most, count + 1)
        return ms
      }
      refused += 1
    }
  }

  while (sent < all) {
    const sender = senders.reduce((one, other) => (other.atMs < one.atMs ? other : one))
    const zone = queue.find(({ left, dueMs }) => left > 0 && dueMs <= sender.atMs)
    if (zone === undefined) {
      // Nothing is due: the next look comes by itself.
      sender.atMs = Math.max(
        sender.atMs + 15_000,
        Math.min(...queue.flatMap(({ left, dueMs }) => (left > 0 ? dueMs : []))),
      )
      continue
    }
    const count = Math.min(zone.left, WIDE_BATCH)
    const claimedMs = sender.atMs + parts.claimMs
    let doneMs = claimedMs
    for (let at = 0; at < count; at += 1) {
      const startMs = Math.max(sender.freeMs, claimedMs) + parts.messageMs
      sender.freeMs = Math.max(sender.freeMs, claimedMs) + gapMs
      strange += parts.strangers
      let ms = startMs
      if (strange >= 1) {
        strange -= 1
        ms = taken(ms) + parts.latencyMs
      }
      ms = taken(ms)
      zone.lateMs = Math.max(zone.lateMs, ms - zone.dueMs)
      doneMs = Math.max(doneMs, ms + parts.latencyMs)
    }
    zone.left -= count
    sent += count
    sender.atMs = doneMs
    endMs = Math.max(endMs, doneMs)
  }
  const minutes = (ms: number) => Math.round(ms / 6000) / 10
  const first = ZONES[0].name
  const busyMs = queue.find(({ name }) => name === first)?.lateMs ?? 0
  return {
    crews: parts.crews,
    messages: all,
    minutes: minutes(endMs),
    lateMinutes: Object.fromEntries(queue.map(({ name, lateMs }) => [name, minutes(lateMs)])),
    sentPerSecond:
      busyMs === 0
        ? 0
        : Math.round((Math.round(parts.crews * ZONES[0].share) * parts.messages * 10_000) / busyMs) / 10,
    refused,
    mostRequestsASecond: most,
  }
}

/** What would have to be agreed and granted for the latest message to be so late and no later. */
export interface Needed {
  /** Messages a second of all processes. */
  readonly perSecond: number
  /** Requests a second that the platform would have to take. */
  readonly platformPerSecond: number
}

/** More than any bot sends. */
const MOST_PER_SECOND = 100_000

/** Null where so few processes would not be through in that time at any pace: each waits for the answers to a batch. */
export function neededFor(minutes: number, parts: StormParts): Needed | null {
  const at = (perSecond: number) =>
    simulateStorm({ ...parts, perSecond, platformPerSecond: Number.POSITIVE_INFINITY })
  const isInTime = ({ lateMinutes }: Storm) => Math.max(...Object.values(lateMinutes)) <= minutes
  let [low, high] = [0, MOST_PER_SECOND]
  if (!isInTime(at(high))) return null
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (isInTime(at(middle))) high = middle
    else low = middle
  }
  return { perSecond: high, platformPerSecond: at(high).mostRequestsASecond }
}
