import {
  type APIAttachment,
  type APIEmbed,
  type APIMessageTopLevelComponent,
  ComponentType,
  EmbedType,
} from 'discord-api-types/v10'
import { isObject, type Json, objectsOf } from './rules/check.ts'
import { SELECT_TYPES } from './rules/parts.ts'
import { attachmentName } from './rules/urls.ts'

/** `attachment://name` becomes the link of that file. */
function linkOf(value: unknown, attachments: readonly APIAttachment[]): Json {
  const name = attachmentName(value)
  const file = attachments.find((each) => each.filename === name)
  return file === undefined
    ? { url: value, proxy_url: value }
    : { url: file.url, proxy_url: file.proxy_url, content_type: file.content_type, attachment_id: file.id }
}

/** Embeds as the platform gives them back: with a type, and with links in place of file names. */
export function dressEmbeds(embeds: readonly unknown[], attachments: readonly APIAttachment[]): APIEmbed[] {
  return embeds.filter(isObject).map((embed) => {
    const dressed: Json = { type: EmbedType.Rich, ...embed }
    if (Array.isArray(embed.fields))
      dressed.fields = objectsOf(embed.fields).map((f) => ({ inline: false, ...f }))
    for (const key of ['image', 'thumbnail']) {
      const picture = embed[key]
      if (!isObject(picture)) continue
      const { attachment_id: _, ...link } = linkOf(picture.url, attachments)
      dressed[key] = { ...picture, ...link }
    }
    return dressed as unknown as APIEmbed
  })
}

const MEDIA_KEYS = ['media', 'file']

/** What the platform adds to a component or gallery item that did not say. */
function defaultsOf(one: Json, attachments: readonly APIAttachment[]): Json {
  const type = Number(one.type)
  if (SELECT_TYPES.includes(type)) return { min_values: 1, max_values: 1 }
  if (type === ComponentType.Container) return { accent_color: null, spoiler: false }
  if (type === ComponentType.Separator) return { divider: true, spacing: 1 }
  if (type === ComponentType.File && isObject(one.file)) {
    const file = attachments.find(
      (each) => each.filename === attachmentName(isObject(one.file) ? one.file.url : ''),
    )
    return { name: file?.filename ?? null, size: file?.size ?? null, spoiler: false }
  }
  return one.media === undefined ? {} : { description: null, spoiler: false }
}

/** Components as the platform gives them back: each with an id, in order, and with links in place of file names. */
export function dressComponents(
  components: readonly unknown[],
  attachments: readonly APIAttachment[],
): APIMessageTopLevelComponent[] {
  let lastId = 0
  const dress = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(dress)
    if (!isObject(value)) return value
    const own = typeof value.type === 'number' ? { id: ++lastId } : {}
    const dressed: Json = { ...defaultsOf(value, attachments), ...own }
    for (const [key, each] of Object.entries(value))
      dressed[key] =
        MEDIA_KEYS.includes(key) && isObject(each)
          ? { id: '0', ...each, ...linkOf(each.url, attachments) }
          : dress(each)
    return dressed
  }
  return components.map(dress) as APIMessageTopLevelComponent[]
}
