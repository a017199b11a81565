import { setTimeout as wait } from 'node:timers/promises'
import {
  type APIInteractionResponse,
  InteractionResponseType,
  MessageFlags,
  RateLimitError,
  type RawFile,
  type REST,
  Routes,
} from 'discord.js'
import { FIRST_RESPONSE_MS } from './limits.ts'
import type { Log } from './log.ts'
import type { ReadyFile } from './pictures.ts'
import { describeError, type Trouble, troubleOf } from './platform-error.ts'
import type { Incoming } from './read.ts'
import type { MessageBody } from './render.ts'

/** Past this nobody is waiting for a first response, whatever becomes of the call. */
const MARGIN_MS = 1500

export type Sent = { readonly ok: true } | { readonly ok: false; readonly trouble: Trouble }

/** The calls that answer one interaction. None of them throws: what went wrong is logged and told. */
export interface Responder {
  /** Whether the platform has taken a first response. */
  readonly hasAnswered: boolean
  /** The one first response. */
  first(response: APIInteractionResponse): Promise<Sent>
  /** Says "wait", seen only by who asked. */
  defer(): Promise<Sent>
  editFirst(body: MessageBody, files?: readonly ReadyFile[]): Promise<Sent>
  followUp(body: MessageBody, files?: readonly ReadyFile[]): Promise<Sent>
}

/** Answers with the interaction's own token, so that a refused bot token or a full limit does not stand in the way. */
export function responderFor(rest: REST, log: Log, incoming: Incoming): Responder {
  const { id, token, applicationId } = incoming
  const attempt = async (what: string, call: () => Promise<unknown>): Promise<Sent> => {
    try {
      await call()
      return { ok: true }
    } catch (error) {
      const trouble = troubleOf(error)
      note(log, trouble, { interaction: id, what, trouble, error: describeError(error) })
      return { ok: false, trouble }
    }
  }
  let hasAnswered = false
  const first = async (response: APIInteractionResponse) => {
    const call = () =>
      rest.post(Routes.interactionCallback(id, token), {
        body: response,
        auth: false,
        signal: AbortSignal.timeout(FIRST_RESPONSE_MS + MARGIN_MS),
      })
    const sent = await attempt('first response', () => callAgain(call))
    hasAnswered ||= sent.ok
    return sent
  }
  return {
    get hasAnswered() {
      return hasAnswered
    },
    first,
    defer: () =>
      first({
        type: InteractionResponseType.DeferredChannelMessageWithSource,
        // In a direct message there is nobody to hide from, and a private message would vanish with the app.
        ...(incoming.guild === null ? {} : { data: { flags: MessageFlags.Ephemeral } }),
      }),
    editFirst: (body, files) =>
      attempt('edit', () =>
        callAgain(() =>
          rest.patch(Routes.webhookMessage(applicationId, token, '@original'), {
            body: withoutEphemeral(body),
            auth: false,
            files: rawFiles(files),
          }),
        ),
      ),
    followUp: (body, files) =>
      attempt('follow-up', () =>
        rest.post(Routes.webhook(applicationId, token), {
          body,
          auth: false,
          query: new URLSearchParams({ wait: 'true' }),
          files: rawFiles(files),
        }),
      ),
  }
}

const PAUSES_MS = [100, 400]

/**
 * The client does not repeat a call whose connection was cut, though what it tells of is written already: without an
 * answer its person would do it again. Only for calls that do no more the second time; one that is refused as
 * answered after it was sent before has arrived.
 */
async function callAgain(call: () => Promise<unknown>): Promise<void> {
  for (let attempt = 0; ; attempt += 1) {
    try {
      await call()
      return
    } catch (error) {
      const trouble = troubleOf(error)
      if (trouble === 'answered' && attempt > 0) return
      const pauseMs = PAUSES_MS[attempt]
      if (pauseMs === undefined || trouble !== 'later' || error instanceof RateLimitError) throw error
      await wait(pauseMs)
    }
  }
}

/** Duplicates are everyday, lateness is worth knowing, the rest is a fault. */
function note(log: Log, trouble: Trouble, about: object): void {
  if (trouble === 'answered') log.debug(about, 'answered already')
  else if (trouble === 'late' || trouble === 'gone') log.warn(about, 'too late to answer')
  else log.error(about, 'the platform did not take an answer')
}

/** Whether a message is private was settled when it was made; an edit may not say it again. */
export function withoutEphemeral(body: MessageBody): MessageBody {
  return { ...body, flags: body.flags & ~MessageFlags.Ephemeral }
}

export function rawFiles(files: readonly ReadyFile[] = []): RawFile[] {
  return files.map((file) => ({
    name: file.name,
    contentType: file.type,
    data: Buffer.from(file.bytes.buffer, file.bytes.byteOffset, file.bytes.byteLength),
  }))
}
