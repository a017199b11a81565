import type { Answered } from '#src/desk/desk.ts'

/** Where an unasked message goes: the messenger knows the person by this key. */
export interface Address {
  readonly crewKey: string
  readonly personKey: string
  /** Where in the crew this person was last heard, for when they cannot be reached directly. */
  readonly channelKey: string | null
}

/** The messenger knows no way to this person, and trying at once again would not help. */
export class Unreachable extends Error {
  override readonly name = 'Unreachable'
}

/** The other door: what the bot sends unasked. Resolves when the messenger has taken it. @throws Unreachable */
export type Deliver = (address: Address, answered: Answered, nonce: string) => Promise<void>
