import type { Param, Text } from '#src/conversation/text.ts'
import { printAmount, printNumber } from './amount.ts'
import { BASE_LOCALE, type Catalogue } from './catalogue.ts'
import { stripUnseen } from './clean.ts'
import { printAll, printDay, printMoment } from './moment.ts'

/** How a sentence is said. */
export interface Style {
  /** Language of the reader; the nearest one that has words is taken. */
  readonly locale: string
  /** Makes what somebody typed harmless in this messenger: mentions, markdown, links. */
  readonly escape: (typed: string) => string
  /** Time zone for moments; without it each moment's own zone. */
  readonly zone?: string
  /** Hears of a missing sentence or parameter. The reader sees its name in brackets. */
  readonly onMissing?: (missing: Missing) => void
}

export interface Missing {
  readonly id: string
  /** Empty when the whole sentence is missing. */
  readonly parameters: readonly string[]
}

/**
 * A sentence in the reader's language. Never fails for want of words: a sentence that is missing shows its id in
 * brackets and then its parameters, so that no amount is lost; a parameter that is missing shows its name in brackets.
 */
export function speak(words: Catalogue, text: Text, style: Style): string {
  const given = text.with ?? {}
  const message = words.find(style.locale, text.say)
  const names = message?.parameters ?? Object.keys(given)
  const absent = names.filter((name) => !Object.hasOwn(given, name))
  if (message === null) style.onMissing?.({ id: text.say, parameters: [] })
  if (absent.length > 0) style.onMissing?.({ id: text.say, parameters: absent })
  const printed: Record<string, string> = {}
  const raw: Record<string, string | number> = {}
  for (const name of names) {
    const parameter = Object.hasOwn(given, name) ? given[name] : undefined
    printed[name] = parameter === undefined ? `[${name}]` : speakParam(words, parameter, style)
    raw[name] = parameter === undefined ? 0 : plainValue(parameter, printed[name])
  }
  if (message === null) return [`[${text.say}]`, ...Object.values(printed)].join(' ')
  const stopped = names.filter((name) => !isGiven(given[name]) && printed[name]?.endsWith('.'))
  return stopped.reduce((said, name) => oneStop(said, printed[name] ?? ''), message.say(raw, printed))
}

/** Text that stands as somebody typed or wrote it. */
const isGiven = (parameter: Param | undefined) =>
  parameter === undefined ||
  typeof parameter === 'string' ||
  (typeof parameter === 'object' && 'literal' in parameter)

/** What ends in a stop of its own, such as a time with `p.m.`, needs no second one at the end of a sentence. */
function oneStop(sentence: string, end: string): string {
  return sentence.replaceAll(`${end}.`, () => end)
}

/** One parameter as the reader sees it. */
export function speakParam(words: Catalogue, parameter: Param, style: Style): string {
  const locale = words.intlLocale(style.locale)
  if (typeof parameter === 'string') return style.escape(stripUnseen(parameter))
  if (typeof parameter === 'number') return printNumber(String(parameter), locale)
  if ('literal' in parameter) return stripUnseen(parameter.literal)
  if ('say' in parameter) return speak(words, parameter, style)
  if ('atMs' in parameter) return printMoment({ ...parameter, zone: style.zone ?? parameter.zone }, locale)
  if ('day' in parameter) return printDay(parameter.day, locale)
  if ('all' in parameter) {
    return printAll(
      parameter.all.map((one) => speakParam(words, one, style)),
      parameter.join ?? 'and',
      locale,
    )
  }
  return printAmount(words, parameter, style.locale)
}

/** What decides a plural or a selection: the number itself, or the text as it was given. */
function plainValue(parameter: Param, printed: string): string | number {
  if (typeof parameter === 'number' || typeof parameter === 'string') return parameter
  if ('value' in parameter) return Number(parameter.value)
  if ('all' in parameter) return parameter.all.length
  return printed
}

/** A sentence in the language of stored records and exports, with what people typed left as it is. */
export function speakForRecord(words: Catalogue, text: Text, zone?: string): string {
  return speak(words, text, {
    locale: BASE_LOCALE,
    escape: (typed) => typed,
    ...(zone === undefined ? {} : { zone }),
  })
}
