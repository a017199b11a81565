import type { z } from 'zod'
import type { StoredFile } from '#src/conversation/ask.ts'
import type { Reply } from '#src/conversation/reply.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { Crew, CrewChange } from '#src/store/crews.ts'
import type { Person } from '#src/store/people.ts'

/** What a command may use. The store is this crew's, inside the request's transaction. */
export interface Tools {
  readonly crew: Crew
  readonly person: Person
  readonly isLead: boolean
  readonly store: CrewStore
  readonly nowMs: number
  /** Today in the crew's time zone, YYYY-MM-DD. */
  readonly today: string
  readonly turn: { readonly id: number; readonly number: number }
  readonly channelKey: string | null
  /** Language of the person, for reading what they typed. */
  readonly locale: string
  /** Words of exposure that this request was stopped for; null in every other case. */
  readonly heard: string | null
  /** What stands in the text files of this request, by hash. */
  readonly texts: ReadonlyMap<string, string>
  /** False while the store cannot be written: what is only good to know is then left unwritten. */
  readonly canWrite: boolean
  updateCrew(change: CrewChange): Promise<void>
  /** Call after changing a name that autocomplete offers. */
  namesChanged(): Promise<void>
}

export interface Answer {
  readonly reply: Reply
  /** Carried to `next`; JSON only, at most a few kilobytes. */
  readonly state?: unknown
  /**
   * The command under whose name this answer is kept and to which its choices lead, when it is another one: the key
   * hands over to the mix. The one that hands over minds what would stop the other.
   */
  readonly keptAs?: string
}

export type FieldValue = string | string[] | StoredFile[]

/** What happened to a reply: a choice was pressed, or its form was filled in. */
export type Event =
  | { readonly kind: 'press'; readonly step: string; readonly value: unknown }
  | {
      readonly kind: 'submit'
      readonly step: string
      readonly value: unknown
      readonly fields: Readonly<Record<string, FieldValue>>
    }

/** A kept state that this program cannot read any more: the question has to be asked again. */
export class StaleState extends Error {}

export type OptionValues<Options extends z.ZodObject> = z.infer<Options>

export interface Command {
  /** One word, or two: `site add` shows as a subcommand. */
  readonly name: string
  readonly options: z.ZodObject
  readonly may: 'crew' | 'lead'
  /** Of a group the one that is meant by its first word alone, where a messenger lets that be typed. */
  readonly alone?: boolean
  /** Answers later because it draws or reads files; such a command is private and opens no form. */
  readonly slow?: boolean
  /** Goes through whatever stands in the way of others: an open emergency, a flood of questions. */
  readonly always?: boolean
  /** Stops while words of exposure are not dealt with: mixing and new records. */
  readonly stopsAfterExposure?: boolean
  /** Takes words copied from labels, whose first aid speaks of eyes and skin: they are no alarm. */
  readonly copiesLabels?: boolean
  readonly stateVersion: number
  start(options: never, tools: Tools): Promise<Answer>
  next?(state: never, event: Event, tools: Tools): Promise<Answer>
  /**
   * What a planned message of this command says on the day on which it leaves; null when it is not wanted any more.
   * Without it the message is what was planned. The tools are those of the person that it goes to.
   */
  leaving?(planned: Reply, tools: Tools): Promise<Reply | null>
}

/** How an option is filled in: what completes it while typing, and whether it takes a file or a role of the server. */
export interface OptionMeta {
  readonly suggest?: string
  readonly file?: boolean
  /** Where the messenger knows roles, one is chosen, and its id is the value; elsewhere it is typed. */
  readonly role?: boolean
}

interface Definition<Options extends z.ZodObject, State> {
  readonly name: string
  readonly options: Options
  readonly may: 'crew' | 'lead'
  readonly alone?: boolean
  readonly slow?: boolean
  readonly always?: boolean
  readonly stopsAfterExposure?: boolean
  readonly copiesLabels?: boolean
  readonly stateVersion?: number
  /** Guards what comes back from the store; a state that does not fit means "start here again". */
  readonly state?: z.ZodType<State>
  start(options: z.infer<Options>, tools: Tools): Promise<Answer>
  next?(state: State, event: Event, tools: Tools): Promise<Answer>
  leaving?(planned: Reply, tools: Tools): Promise<Reply | null>
}

/** Declares a command: its options' types reach `start`, its state's type reaches `next`. */
export function defineCommand<Options extends z.ZodObject, State>(
  definition: Definition<Options, State>,
): Command {
  const { state, next, start, stateVersion = 1, ...rest } = definition
  return {
    ...rest,
    stateVersion,
    start: (options: never, tools) => start(options as z.infer<Options>, tools),
    ...(next === undefined
      ? {}
      : {
          next: async (raw: never, event: Event, tools: Tools) => next(readState(state, raw), event, tools),
        }),
  }
}

function readState<State>(schema: z.ZodType<State> | undefined, raw: unknown): State {
  if (schema === undefined) return undefined as State
  const read = schema.safeParse(raw)
  if (!read.success) throw new StaleState('Cannot read what was kept of a question', { cause: read.error })
  return read.data
}
