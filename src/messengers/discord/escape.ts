import { remember } from '#src/memory/remember.ts'

/** Signs that format, mention or link wherever they stand: `<` opens mentions, times, commands and emoji. */
const ANYWHERE = /[\\`*_~|<[]/g
/** Signs that make a heading, small print, a quote or a list where a line begins. */
const LINE_START = /^([^\S\n]*)([#>+-])/gm
const NUMBERED = /^([^\S\n]*\d+)([.)])(?=\s|$)/gm
const EMOJI_NAME = /:(?=[\w+-]+:)/g
const LINK = /:(?=\/\/)/g
const INVITE = /(discord(?:app)?\.(?:gg|com))\//gi
/** A backslash does not stop these two; a break that cannot be seen does. */
const EVERYBODY = /@(?=everyone|here)/gi
const UNSEEN_BREAK = '\u200b'

/**
 * Plain text so that it reads on Discord exactly as it stands: nothing in it formats, mentions, links or becomes an
 * emoji. Sentences of our own are plain text too, so whole lines are escaped, not only what somebody typed.
 */
export function escapeText(plain: string): string {
  return plain.length <= LONGEST_KNOWN ? known(plain) : escaped(plain)
}

/** Each line is measured before it is shown, and safety lines and small print come under every answer. */
const MOST_KNOWN = 500
const LONGEST_KNOWN = 400
const known = remember(escaped, MOST_KNOWN)

function escaped(plain: string): string {
  return plain
    .replace(ANYWHERE, '\\$&')
    .replace(EMOJI_NAME, '\\:')
    .replace(LINK, '\\:')
    .replace(INVITE, '$1\\/')
    .replace(LINE_START, '$1\\$2')
    .replace(NUMBERED, '$1\\$2')
    .replace(EVERYBODY, `@${UNSEEN_BREAK}`)
}

/** What somebody typed, on as few lines as it needs: it cannot pass itself off as further lines of the answer. */
export function flattenTyped(typed: string): string {
  return typed.replace(/\s*[\n\r\u2028\u2029]\s*/g, ' / ').trim()
}

/** Text for places without markup (buttons, menus, titles): on one line. */
export function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ').trim()
}
