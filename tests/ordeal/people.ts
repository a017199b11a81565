import type { APIMessage } from 'discord-api-types/v10'
import type { Random } from '#src/season/random.ts'
import type { DiscordStandIn } from '#tests/discord-loopback/index.ts'
import type { Fired } from '#tests/discord-loopback/interactions/fired.ts'
import { HAND_CAN } from '#tests/e2e-discord/seed.ts'
import { buttonsOf, textOf } from '#tests/messengers/discord/seen.ts'

/** What somebody of the crew did, and what it must have left in the store if it was answered. */
export type Deed =
  | { readonly kind: 'mix' | 'rate' | 'cleaned'; readonly fired: Fired }
  /** A sprayer of this name, once. */
  | { readonly kind: 'sprayer'; readonly fired: Fired; readonly name: string }
  /** A press on "poured"; all presses of one mix are one pouring. */
  | { readonly kind: 'pour'; readonly fired: Fired; readonly mix: string }

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

/** A crew at work: what it does is chosen from the seed. */
export function openCrew(platform: DiscordStandIn, random: Random) {
  const deeds: Deed[] = []
  const mixes: APIMessage[] = []
  let sprayers = 0

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
      if (draw < 0.35) mix()
      else if (draw < 0.7) {
        if (!pour()) mix()
      } else if (draw < 0.8) sprayer()
      else if (draw < 0.9) rate()
      else cleaned()
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
