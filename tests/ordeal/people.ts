import type { APIMessage } from 'discord-api-types/v10'
import type { Random } from '#src/season/random.ts'
import type { DiscordStandIn } from '#tests/discord-loopback/index.ts'
import type { Fired } from '#tests/discord-loopback/interactions/fired.ts'
import { HAND_CAN } from '#tests/e2e-discord/seed.ts'
import { buttonsOf, textOf } from '#tests/messengers/discord/seen.ts'
import { amendWalk, logWalk, mixedWalk, nextSiteWalk, type Step, walkThrough } from './log-walk.ts'

/** What somebody of the crew did, and what it must have left in the store if it was answered. */
export type Deed =
  | { readonly kind: 'mix' | 'rate' | 'cleaned'; readonly fired: Fired }
  /** A sprayer of this name, once. */
  | { readonly kind: 'sprayer'; readonly fired: Fired; readonly name: string }
  /** A press on "poured"; all presses of one mix are one pouring. */
  | { readonly kind: 'pour'; readonly fired: Fired; readonly mix: string }
  /** A step of a log; a log from nothing is known by its notes. */
  | { readonly kind: 'log'; readonly fired: Fired; readonly notes: string | null; readonly begins: boolean }
  /** A step of an amendment, known by its reason. */
  | { readonly kind: 'amend'; readonly fired: Fired; readonly why: string }

const crew = { user: 'demo.crew', channel: 'field' }
const POUR = `Poured into ${HAND_CAN}`
const TANKS = ['1 gal', '2 gal', '1.5 gal']

/** What the person ends up reading; null while there is no answer, or only the word to wait. */
export function shownText(fired: Fired): string | null {
  const parts = [
    ...(fired.edits.length > 0
      ? fired.edits.map(({ body }) => textOf(body))
      : fired.response === undefined || isWait(fired)
        ? []
        : [textOf(fired.response.data)]),
    ...fired.followUps.map(({ body }) => textOf(body)),
  ]
  return parts.length === 0 ? null : parts.join('\n')
}

const WAIT = [5, 6]
const isWait = (fired: Fired) => WAIT.includes(fired.response?.type ?? 0)

/** The answer number that a person reads, in either language; null when there is none. */
export function numberIn(text: string): number | null {
  const found = /(?:Answer no\.|Respuesta n\.º) (\d+)/.exec(text)
  return found?.[1] === undefined ? null : Number(found[1])
}

/** The record that a person reads is kept, amended or void: `12`; null when the answer is about none. */
export function recordIn(text: string): { readonly number: number; readonly done: string } | null {
  const found = /\bR(\d+) is (recorded|amended|void)\b/.exec(text)
  return found === null ? null : { number: Number(found[1]), done: found[2] ?? '' }
}

/** Logs that are on their way at once: more, and most of them would be given up. */
const MOST_WALKS = 3

/** A crew at work: what it does is chosen from the seed. */
export function openCrew(platform: DiscordStandIn, random: Random) {
  const deeds: Deed[] = []
  const mixes: APIMessage[] = []
  const walks = new Set<Promise<void>>()
  let sprayers = 0
  let logs = 0
  let amendments = 0

  function mix(): void {
    const options = { rate: '1 fl oz/1000 ft2', tank: random.pick(TANKS), sprayer: HAND_CAN }
    const fired = platform.slash({ name: 'mix', ...crew, options })
    deeds.push({ kind: 'mix', fired })
    void fired.message(20_000).then(
      (message) => mixes.push(message),
      () => {},
    )
  }

  /** Presses "poured" below a mix that still has the button, sometimes twice at once, as impatient thumbs do. */
  function pour(): boolean {
    const open = mixes.filter((message) =>
      buttonsOf(message).some(({ label, disabled }) => label === POUR && !disabled),
    )
    if (open.length === 0) return false
    const message = random.pick(open)
    const customId = buttonsOf(message).find(({ label }) => label === POUR)?.customId ?? ''
    for (let press = random.chance(0.3) ? 2 : 1; press > 0; press -= 1)
      deeds.push({ kind: 'pour', fired: platform.press({ message, customId }), mix: message.id })
    return true
  }

  function sprayer(): void {
    sprayers += 1
    const name = `Trial can ${sprayers}`
    const lead = { user: 'demo.lead', channel: 'office' }
    const fired = platform.slash({ name: 'sprayer add', ...lead, options: { name, tank: '1 gal' } })
    deeds.push({ kind: 'sprayer', name, fired })
  }

  /** Notes each step of a log among the deeds. */
  const tellLog =
    (notes: string | null) =>
    ({ fired, begins, pouredBelow }: Step) =>
      deeds.push(
        pouredBelow === null
          ? { kind: 'log', fired, notes, begins }
          : { kind: 'pour', fired, mix: pouredBelow },
      )

  function newNotes(): string {
    logs += 1
    return `Trial log ${logs}`
  }

  /** Logs an application, from nothing or from a mix, and sometimes amends it afterwards. */
  async function log(): Promise<void> {
    const notes = random.chance(0.6) ? newNotes() : null
    const tell = tellLog(notes)
    const walk = notes === null ? mixedWalk(platform, random) : logWalk(platform, random, notes)
    const kept = await walkThrough(platform, random, walk, tell)
    if (kept === null) return
    // Read now: the next log goes on in the same message.
    const record = recordIn(textOf(kept))
    const more = random.chance(0.5) ? nextSiteWalk(platform, kept) : null
    if (more !== null) await walkThrough(platform, random, more, tell)
    if (record !== null && random.chance(0.5)) await amend(`R${record.number}`)
  }

  async function amend(record: string): Promise<void> {
    amendments += 1
    const why = `Trial reason ${amendments}`
    await walkThrough(platform, random, amendWalk(platform, random, record, why), ({ fired }) =>
      deeds.push({ kind: 'amend', fired, why }),
    )
  }

  function beginLog(): boolean {
    if (walks.size >= MOST_WALKS) return false
    const walk: Promise<void> = log().finally(() => walks.delete(walk))
    walks.add(walk)
    return true
  }

  const rate = () =>
    deeds.push({
      kind: 'rate',
      fired: platform.slash({
        name: 'rate',
        ...crew,
        options: { amount: '3 pt/acre', to: 'fl oz/1000 ft2' },
      }),
    })
  const cleaned = () =>
    deeds.push({
      kind: 'cleaned',
      fired: platform.slash({ name: 'sprayer cleaned', ...crew, options: { sprayer: HAND_CAN } }),
    })

  return {
    deeds,
    /** One thing that somebody does now. */
    act(): void {
      const draw = random.next()
      if (draw < 0.25) {
        if (!beginLog()) mix()
      } else if (draw < 0.45) mix()
      else if (draw < 0.7) {
        if (!pour()) mix()
      } else if (draw < 0.8) sprayer()
      else if (draw < 0.9) rate()
      else cleaned()
    },
    /** One log from nothing is walked to its end, while nothing is in the way. @throws if it does not get there */
    async logOne(): Promise<void> {
      const notes = newNotes()
      const kept = await walkThrough(platform, random, logWalk(platform, random, notes), tellLog(notes))
      if (kept === null) throw new Error('A log has not come to its end, and nothing was in its way')
    },
    /** Logs that are on their way come to their end. */
    async finishLogs(): Promise<void> {
      await Promise.all(walks)
    },
    /** A question whose answer is waited for: ms until it was there. @throws if none comes */
    async probe(withinMs: number): Promise<number> {
      const began = performance.now()
      const until = began + withinMs
      for (;;) {
        rate()
        const { fired } = deeds.at(-1) as Deed
        const left = until - performance.now()
        if (left <= 0) throw new Error(`No answer within ${withinMs} ms`)
        const text = await fired.firstResponse(Math.min(left, 4000)).then(
          () => shownText(fired),
          () => null,
        )
        if (text !== null) return performance.now() - began
        await new Promise((done) => setTimeout(done, 50))
      }
    },
  }
}
export type OrdealCrew = ReturnType<typeof openCrew>
