import type {
  APIInteraction,
  APIMessage,
  InteractionResponseType,
  InteractionType,
} from 'discord-api-types/v10'
import type { StoredMessage } from '../messages.ts'
import type { ErrorBody } from '../rest/answers.ts'
import type { UploadedFile } from '../rest/body.ts'
import type { Json } from '../rules/check.ts'
import type { WorldChannel, WorldGuild, WorldUser } from '../world/world.ts'

/** First response within this time, ms. Source: Discord developer docs, receiving-and-responding. */
export const FIRST_RESPONSE_MS = 3000
/** Life of the token after that, ms. Same source. */
export const TOKEN_LIFE_MS = 15 * 60 * 1000
/** Follow-ups of an app that is not in the guild (40094). Source: the same page, "Followup Messages". */
export const FOLLOW_UPS_OUTSIDE = 5

/** The accepted first response to an interaction. */
export interface FirstResponse {
  type: InteractionResponseType
  /** The whole callback body as the bot sent it. */
  body: Json
  data: Json
  files: UploadedFile[]
  /** The message that came of it, as it stands now; absent for modals and suggestions. */
  message: APIMessage | undefined
  /** From the interaction's birth to here by the stand-in's clock, ms. */
  afterMs: number
}

/** A later message of the bot: an edit of its answer or one more. */
export interface LaterMessage {
  body: Json
  files: UploadedFile[]
  message: APIMessage
}

/** An answer of the bot that was turned down. */
export interface RefusedCall {
  status: number
  error: ErrorBody
  body: unknown
}

/** Who did it and where. */
export interface Place {
  user: WorldUser
  guild: WorldGuild | undefined
  channel: WorldChannel
}

/** One interaction from its birth on, with all that was done to it. */
export interface InteractionRecord extends Place {
  id: string
  token: string
  type: InteractionType
  createdAtMs: number
  frame: APIInteraction
  /** The message whose component was used, or from which the modal came. */
  source: StoredMessage | undefined
  /** What opened the form that was sent. */
  opener: InteractionRecord | undefined
  /** Kind of the option being typed, for suggestions. */
  focusedType: number | undefined
  response: FirstResponse | undefined
  /** What `@original` means: the answer, or the message that is updated. */
  original: StoredMessage | undefined
  /** Ids of the follow-ups that this token may edit. */
  ownIds: Set<string>
  followUpCount: number
}

export type RecordEvent =
  | { kind: 'response'; record: InteractionRecord; response: FirstResponse }
  | { kind: 'edit'; record: InteractionRecord; later: LaterMessage }
  | { kind: 'followUp'; record: InteractionRecord; later: LaterMessage }
  | { kind: 'delete'; record: InteractionRecord; messageId: string }
  | { kind: 'refused'; record: InteractionRecord; refused: RefusedCall }
