/** One typed line of the practice room, taken apart but not yet understood. */
export type Line =
  | { readonly kind: 'run'; readonly words: string; readonly rest: string }
  | { readonly kind: 'press'; readonly choice: number }
  | { readonly kind: 'language'; readonly language: string }
  | { readonly kind: 'submit'; readonly rest: string }
  | { readonly kind: 'wait'; readonly amount: number; readonly unit: TimeUnit }
  | { readonly kind: 'nothing' }
  | { readonly kind: 'malformed' }

export const TimeUnit = ['minutes', 'hours', 'days', 'weeks'] as const
export type TimeUnit = (typeof TimeUnit)[number]

const UNIT_MS: Record<TimeUnit, number> = {
  minutes: 60_000,
  hours: 3_600_000,
  days: 86_400_000,
  weeks: 604_800_000,
}
export const waitMs = (line: { readonly amount: number; readonly unit: TimeUnit }): number =>
  line.amount * UNIT_MS[line.unit]

const LONGEST_LINE = 10_000
const LONGEST_WAIT_MS = 10 * 366 * UNIT_MS.days

/**
 * `/command option:value`, `> N`, `> es` for the last reply in that language, `= field:value`, `+ 8 days`. Anything else
 * is malformed, never an exception.
 */
export function readLine(text: string): Line {
  const line = text.trim()
  if (line === '') return { kind: 'nothing' }
  if (line.length > LONGEST_LINE) return { kind: 'malformed' }
  if (line.startsWith('>')) return readPress(line.slice(1).trim())
  if (line.startsWith('=')) return { kind: 'submit', rest: line.slice(1).trim() }
  if (line.startsWith('+')) return readWait(line.slice(1).trim())
  const command = /^\/\s*([^\s:]+(?:\s+[^\s:]+(?=\s|$))*)\s*([\s\S]*)$/u.exec(line)
  if (command === null) return { kind: 'malformed' }
  return { kind: 'run', words: command[1] ?? '', rest: command[2] ?? '' }
}

function readPress(text: string): Line {
  if (/^[a-z]{2}(-[A-Z]{2})?$/.test(text)) return { kind: 'language', language: text }
  const choice = Number(text)
  return /^\d{1,2}$/.test(text) && choice > 0 ? { kind: 'press', choice } : { kind: 'malformed' }
}

function readWait(text: string): Line {
  const found = /^(\d{1,6})\s*(min|minute|hour|day|week|h|d|w)s?$/i.exec(text)
  if (found === null) return { kind: 'malformed' }
  const letter = (found[2] ?? '')[0]?.toLowerCase()
  const unit = TimeUnit.find((candidate) => candidate[0] === letter) ?? 'days'
  const line = { kind: 'wait', amount: Number(found[1]), unit } as const
  return waitMs(line) > LONGEST_WAIT_MS ? { kind: 'malformed' } : line
}

export type Values =
  | { readonly ok: true; readonly values: Readonly<Record<string, string>> }
  | { readonly ok: false }

const QUOTES: Readonly<Record<string, string>> = { '"': '"', '“': '”', '„': '“', '«': '»' }

/**
 * `tank:"2 gal" output:1 gal/1000 ft2`: a value in quotes is taken as it stands (`\"` for a quote), a bare one runs to
 * the next `name:` that is known, so that nobody needs quotes on a phone.
 */
export function readValues(text: string, known: ReadonlySet<string>): Values {
  const values = new Map<string, string>()
  let rest = text.trim()
  while (rest !== '') {
    const name = /^([\p{L}_][\p{L}\p{N}_-]*)\s*:\s*/u.exec(rest)
    if (name?.[1] === undefined) return { ok: false }
    const key = name[1].toLowerCase()
    const taken = takeValue(rest.slice(name[0].length), known)
    if (taken === null) return { ok: false }
    values.set(key, taken.value)
    rest = taken.rest
  }
  return { ok: true, values: Object.fromEntries(values) }
}

function takeValue(text: string, known: ReadonlySet<string>): { value: string; rest: string } | null {
  const close = QUOTES[text[0] ?? '']
  if (close !== undefined) return takeQuoted(text, close)
  for (const found of text.matchAll(/\s+([\p{L}_][\p{L}\p{N}_-]*)\s*:/gu)) {
    if (known.has((found[1] ?? '').toLowerCase()))
      return { value: text.slice(0, found.index).trim(), rest: text.slice(found.index).trim() }
  }
  return { value: text.trim(), rest: '' }
}

function takeQuoted(text: string, close: string): { value: string; rest: string } | null {
  let value = ''
  for (let at = 1; at < text.length; at++) {
    const letter = text[at]
    if (letter === '\\' && (text[at + 1] === close || text[at + 1] === '\\')) {
      value += text[++at]
    } else if (letter === close) {
      return { value, rest: text.slice(at + 1).trim() }
    } else value += letter
  }
  return null
}
