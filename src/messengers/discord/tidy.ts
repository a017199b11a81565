import { type REST, Routes } from 'discord.js'
import { readToken } from '#src/conversation/token.ts'
import { readCustomId, readHead } from './custom-id.ts'
import type { Log } from './log.ts'
import type { SourceMessage } from './payload.ts'
import { describeError, troubleOf } from './platform-error.ts'

type Json = SourceMessage['components'][number]

/**
 * The same components with the used-up buttons and menus grayed; null when there are none. What may be pressed again
 * stays, and so does what only shows more.
 */
export function grayUsed(components: readonly Json[]): Json[] | null {
  let grayed = 0
  const gray = (one: Json): Json => {
    if (Array.isArray(one)) return one.map(gray)
    if (typeof one !== 'object' || one === null) return one
    const copy = Object.fromEntries(
      Object.entries(one).map(([key, value]) => {
        if (isNested(key)) return [key, gray(value)]
        return [key, isMedia(key) ? reused(value) : value]
      }),
    )
    if (typeof one.custom_id !== 'string' || one.disabled === true || !isUsedUp(one.custom_id)) return copy
    grayed += 1
    return { ...copy, disabled: true }
  }
  const result = components.map(gray)
  return grayed === 0 ? null : result
}

const isNested = (key: string) => key === 'components' || key === 'accessory' || key === 'items'
const isMedia = (key: string) => key === 'media' || key === 'file'

/** A file that the message carries comes back with its address; it is sent back by its name, as at first. */
function reused(media: Json): Json {
  if (typeof media !== 'object' || media === null || Array.isArray(media)) return media
  const name = nameIn(media.url)
  return { url: name === undefined ? (media.url ?? '') : `attachment://${name}` }
}

function isUsedUp(customId: string): boolean {
  const { head, marks } = readCustomId(customId)
  const isChoice = readToken(head) !== null || readHead(head)?.kind === 'menu'
  return isChoice && marks.repeat !== true
}

/** Grays the used-up buttons of a message. May fail without harm: the desk knows what has been pressed. */
export async function tidyMessage(
  rest: REST,
  log: Log,
  channelId: string,
  message: SourceMessage,
): Promise<void> {
  const components = grayUsed(message.components)
  if (components === null) return
  const attachments = filesShown(message.components)
  try {
    await rest.patch(Routes.channelMessage(channelId, message.id), {
      body: {
        components,
        allowed_mentions: { parse: [] },
        ...(attachments.length === 0 ? {} : { attachments }),
      },
    })
  } catch (error) {
    log.debug({ trouble: troubleOf(error), error: describeError(error) }, 'used buttons stay as they are')
  }
}

/** The files that these components show, to be kept by an edit that names them. */
export function filesShown(components: readonly Json[]): { id: string; filename: string }[] {
  return components.flatMap((one): { id: string; filename: string }[] => {
    if (Array.isArray(one)) return filesShown(one)
    if (typeof one !== 'object' || one === null) return []
    return Object.entries(one).flatMap(([key, value]) => {
      if (isNested(key)) return filesShown([value])
      return isMedia(key) ? fileShown(value) : []
    })
  })
}

function fileShown(media: Json): { id: string; filename: string }[] {
  if (typeof media !== 'object' || media === null || Array.isArray(media)) return []
  const filename = nameIn(media.url)
  const id = media.attachment_id
  return filename === undefined || typeof id !== 'string' ? [] : [{ id, filename }]
}

const nameIn = (url: Json | undefined): string | undefined =>
  /\/(?:ephemeral-)?attachments\/\d+\/\d+\/([^/?]+)/.exec(String(url))?.[1]

/** Whether one of these components carries this token. */
export function holdsHead(components: readonly Json[], head: string): boolean {
  return components.some((one): boolean => {
    if (Array.isArray(one)) return holdsHead(one, head)
    if (typeof one !== 'object' || one === null) return false
    if (typeof one.custom_id === 'string' && readCustomId(one.custom_id).head === head) return true
    return Object.entries(one).some(([key, value]) => isNested(key) && holdsHead([value], head))
  })
}
