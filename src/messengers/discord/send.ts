import {
  type APIInteractionResponseCallbackData,
  type APIModalInteractionResponseCallbackData,
  InteractionResponseType,
} from 'discord.js'
import type { MessageBody } from './render.ts'
import { type Responder, type Sent, withoutEphemeral } from './responder.ts'

/** A message as the first response, or in place of the message that was used, whose files go. */
export function sendFirst(responder: Responder, how: 'update' | 'message', body: MessageBody): Promise<Sent> {
  const data = (how === 'update' ? withoutEphemeral(body) : body) as APIInteractionResponseCallbackData
  return responder.first(
    how === 'update'
      ? {
          type: InteractionResponseType.UpdateMessage,
          data: { ...data, attachments: data.attachments ?? [] },
        }
      : { type: InteractionResponseType.ChannelMessageWithSource, data },
  )
}

export function sendModal(
  responder: Responder,
  data: APIModalInteractionResponseCallbackData,
): Promise<Sent> {
  return responder.first({ type: InteractionResponseType.Modal, data })
}

/** A private remark, whether or not there was a first response already. */
export async function sendNotice(responder: Responder, body: MessageBody): Promise<void> {
  if (responder.hasAnswered) await responder.followUp(body)
  else await sendFirst(responder, 'message', body)
}

/** Pages as a first response and private messages after it. */
export async function sendPages(responder: Responder, pages: readonly MessageBody[]): Promise<void> {
  for (const page of pages) {
    if (responder.hasAnswered) await responder.followUp(page)
    else if (!(await sendFirst(responder, 'message', page)).ok) return
  }
}
