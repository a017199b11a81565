import type { REST } from 'discord.js'
import type { Suggest, Suggestion } from '#src/conversation/ask.ts'
import type { Desk } from '#src/desk/desk.ts'
import type { Registry } from '#src/desk/registry.ts'
import type { Draw } from '#src/messengers/draw.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import type { CrewFinder } from './crews.ts'
import type { Log } from './log.ts'
import type { Showings } from './showings.ts'

/** Everything that answering an interaction takes. */
export interface Rim {
  readonly rest: REST
  readonly desk: Desk
  readonly registry: Registry
  readonly words: Catalogue
  readonly suggest: (asked: Suggest) => Promise<readonly Suggestion[]>
  readonly crews: CrewFinder
  readonly draw: Draw
  readonly log: Log
  readonly nowMs: () => number
  /** Since when all that an answer takes has been there: the first interaction has it loaded. */
  readonly openSinceMs: number
  readonly showings: Showings
}
