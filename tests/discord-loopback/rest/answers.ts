import { RESTJSONErrorCodes as Code } from 'discord-api-types/v10'
import type { ErrorTree, Findings } from '../rules/findings.ts'

/** What goes back over HTTP. `body` is sent as JSON, `bytes` as they are. */
export interface Answer {
  status: number
  body?: unknown
  bytes?: Uint8Array
  headers?: Record<string, string>
}

/** The platform's error shape. */
export interface ErrorBody {
  code: number
  message: string
  errors?: ErrorTree
}

export const ok = (body: unknown, status = 200): Answer => ({ status, body })
export const noContent: Answer = { status: 204 }

export function refuse(status: number, code: number, message: string, errors?: ErrorTree): Answer {
  return { status, body: { message, code, ...(errors === undefined ? {} : { errors }) } satisfies ErrorBody }
}

export const invalidForm = (findings: Findings): Answer =>
  refuse(400, Code.InvalidFormBodyOrContentType, 'Invalid Form Body', findings.tree())

/**
 * Errors by name. Codes: Discord developer docs, topics/opcodes-and-status-codes. HTTP statuses that those
 * pages do not give are from memory.
 */
export const refusals = {
  unauthorized: () => refuse(401, 0, '401: Unauthorized'),
  unknownRoute: () => refuse(404, 0, '404: Not Found'),
  unknownInteraction: () => refuse(404, Code.UnknownInteraction, 'Unknown interaction'),
  alreadyAcknowledged: () =>
    refuse(400, Code.InteractionHasAlreadyBeenAcknowledged, 'Interaction has already been acknowledged.'),
  unknownWebhook: () => refuse(404, Code.UnknownWebhook, 'Unknown Webhook'),
  invalidWebhookToken: () => refuse(401, Code.InvalidWebhookToken, 'Invalid Webhook Token'),
  unknownMessage: () => refuse(404, Code.UnknownMessage, 'Unknown Message'),
  unknownChannel: () => refuse(404, Code.UnknownChannel, 'Unknown Channel'),
  unknownGuild: () => refuse(404, Code.UnknownGuild, 'Unknown Guild'),
  unknownUser: () => refuse(404, Code.UnknownUser, 'Unknown User'),
  unknownMember: () => refuse(404, Code.UnknownMember, 'Unknown Member'),
  unknownCommand: () => refuse(404, Code.UnknownApplicationCommand, 'Unknown application command'),
  missingAccess: () => refuse(403, Code.MissingAccess, 'Missing Access'),
  missingPermissions: () => refuse(403, Code.MissingPermissions, 'Missing Permissions'),
  emptyMessage: () => refuse(400, Code.CannotSendAnEmptyMessage, 'Cannot send an empty message'),
  tooManyFiles: () =>
    refuse(
      400,
      Code.MaximumNumberOfAttachmentsInAMessageReached,
      'Maximum number of attachments in a message reached (10)',
    ),
  tooLarge: () => refuse(413, Code.RequestEntityTooLarge, 'Request entity too large'),
  badJson: () => refuse(400, Code.RequestBodyContainsInvalidJSON, 'The request body contains invalid JSON.'),
  cannotMessageUser: () =>
    refuse(403, Code.CannotSendMessagesToThisUser, 'Cannot send messages to this user'),
  noMutualGuilds: () =>
    refuse(
      403,
      Code.CannotSendMessagesToThisUserDueToHavingNoMutualGuilds,
      'Cannot send messages to this user due to having no mutual guilds',
    ),
  invalidRecipients: () => refuse(400, Code.InvalidRecipients, 'Invalid Recipient(s)'),
  notOurMessage: () =>
    refuse(
      403,
      Code.CannotEditMessageAuthoredByAnotherUser,
      'Cannot edit a message authored by another user',
    ),
  tooManyFollowUps: () =>
    refuse(
      400,
      Code.ThisInteractionHasHitTheMaximumNumberOfFollowUpMessages,
      'This interaction has hit the maximum number of follow up messages.',
    ),
  tooManyCreates: () =>
    refuse(
      400,
      Code.MaximumDailyApplicationCommandCreatesReached,
      'Max number of daily application command creates has been reached (200)',
    ),
} as const

/** The error code of an answer, if it is a refusal. */
export function codeOf(answer: Answer): number | undefined {
  return answer.status < 400 ? undefined : (answer.body as ErrorBody | undefined)?.code
}
