import type { Check } from './check.ts'

/** A link with one of these schemes, at most `max` characters. */
export function url(schemes: readonly string[], max = 2048): Check {
  return (value, path, findings) => {
    if (typeof value !== 'string' || value === '')
      return findings.breach(path, 'BASE_TYPE_BAD_TYPE', 'Could not interpret as string.')
    if (value.length > max)
      findings.breach(path, 'BASE_TYPE_BAD_LENGTH', `Must be between 1 and ${max} in length.`)
    const scheme = /^([a-z]+):\/\/\S+$/i.exec(value)?.[1]?.toLowerCase()
    if (scheme === undefined || !schemes.includes(scheme))
      findings.breach(
        path,
        'URL_TYPE_INVALID_SCHEME',
        `Scheme "${scheme ?? ''}" is not supported. Scheme must be one of (${schemes.map((s) => `'${s}'`).join(', ')}).`,
      )
  }
}

const ATTACHMENT = /^attachment:\/\/(.+)$/

/** The file name behind `attachment://name`, or undefined. */
export const attachmentName = (value: unknown): string | undefined =>
  typeof value === 'string' ? ATTACHMENT.exec(value)?.[1] : undefined

/** A link, or `attachment://name` of a file that this message carries. */
export function mediaUrl(fileNames: readonly string[], schemes = ['http', 'https', 'attachment']): Check {
  const link = url(schemes)
  return (value, path, findings) => {
    link(value, path, findings)
    const name = attachmentName(value)
    if (name !== undefined && !fileNames.includes(name))
      findings.breach(
        path,
        'UNFURLED_MEDIA_ITEM_REFERENCED_ATTACHMENT_NOT_FOUND',
        `The referenced attachment "${name}" was not found.`,
      )
  }
}
