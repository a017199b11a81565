import {
  anything,
  type Check,
  isObject,
  type Json,
  list,
  listOf,
  maybe,
  objectsOf,
  shape,
  text,
  truth,
  whole,
} from './check.ts'
import type { Findings, Path } from './findings.ts'
import { attachmentName, mediaUrl, url } from './urls.ts'

/** All lengths: Discord developer docs, resources/message, "Embed Limits". */
export const EMBED_TOTAL_CHARACTERS = 6000
export const EMBEDS_PER_MESSAGE = 10

const WEB = ['http', 'https']
const SHOWABLE = /\.(jpe?g|png|webp|gif)$/i

const picture = (fileNames: readonly string[]): Check => {
  const media = mediaUrl(fileNames)
  const url: Check = (value, path, findings) => {
    media(value, path, findings)
    const name = attachmentName(value)
    if (name !== undefined && !SHOWABLE.test(name))
      findings.breach(path, 'URL_TYPE_INVALID_URL', `An embed cannot show "${name}".`)
  }
  return shape({
    url,
    proxy_url: anything,
    width: anything,
    height: anything,
    content_type: anything,
    description: maybe(text(0, 1024)),
    placeholder: anything,
    placeholder_version: anything,
    flags: anything,
  })
}

const timestamp: Check = (value, path, findings) => {
  if (typeof value !== 'string' || Number.isNaN(Date.parse(value)))
    findings.breach(path, 'DATE_TIME_TYPE_PARSE', `Could not parse ${String(value)}. Should be ISO8601.`)
}

/** An empty value is refused by the platform (from memory; in no table that was read). */
const field = shape({ name: text(1, 256), value: text(1, 1024), inline: maybe(truth) })

const embed = (fileNames: readonly string[]): Check =>
  shape({
    title: maybe(text(0, 256)),
    type: anything,
    description: maybe(text(0, 4096)),
    url: maybe(url(WEB)),
    timestamp: maybe(timestamp),
    color: maybe(whole(0, 0xffffff)),
    footer: maybe(
      shape({ text: text(1, 2048), icon_url: maybe(mediaUrl(fileNames)), proxy_icon_url: anything }),
    ),
    image: maybe(picture(fileNames)),
    thumbnail: maybe(picture(fileNames)),
    video: anything,
    provider: anything,
    author: maybe(
      shape({
        name: text(1, 256),
        url: maybe(url(WEB)),
        icon_url: maybe(mediaUrl(fileNames)),
        proxy_icon_url: anything,
      }),
    ),
    fields: maybe(list(field, 0, 25)),
    flags: anything,
  })

const lengthOf = (value: unknown) => (typeof value === 'string' ? value.trim().length : 0)

const textOf = (value: unknown, key: string) => (isObject(value) ? value[key] : undefined)

/** Characters of one embed that count toward the sum. */
export function embedLength(one: Json): number {
  const fields = objectsOf(one.fields).reduce((sum, f) => sum + lengthOf(f.name) + lengthOf(f.value), 0)
  const rest = [one.title, one.description, textOf(one.footer, 'text'), textOf(one.author, 'name')]
  return rest.reduce<number>((sum, each) => sum + lengthOf(each), fields)
}

const CONTENT_KEYS = [
  'title',
  'description',
  'image',
  'thumbnail',
  'author',
  'footer',
  'fields',
  'timestamp',
  'url',
]

const isEmpty = (one: Json) =>
  CONTENT_KEYS.every((key) => {
    const value = one[key]
    return (
      value === undefined || value === null || value === '' || (Array.isArray(value) && value.length === 0)
    )
  })

/** All embeds of a message, each and together. `fileNames`: what `attachment://` may point at. */
export function checkEmbeds(
  value: unknown,
  path: Path,
  findings: Findings,
  fileNames: readonly string[],
): void {
  list(embed(fileNames), 0, EMBEDS_PER_MESSAGE)(value, path, findings)
  const embeds = listOf(value)
  embeds.forEach((one, index) => {
    if (isObject(one) && isEmpty(one))
      findings.breach([...path, index, 'description'], 'BASE_TYPE_REQUIRED', 'This field is required')
  })
  const total = objectsOf(value).reduce((sum, one) => sum + embedLength(one), 0)
  if (total > EMBED_TOTAL_CHARACTERS)
    findings.breach(
      [...path, Math.max(0, embeds.length - 1)],
      'MAX_EMBED_SIZE_EXCEEDED',
      `Embed size exceeds maximum size of ${EMBED_TOTAL_CHARACTERS}`,
    )
}
