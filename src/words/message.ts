import { IntlMessageFormat } from 'intl-messageformat'

/** One piece of a parsed ICU message. */
type Piece = ReturnType<IntlMessageFormat['getAst']>[number]

/** A message that was parsed once: which parameters it needs and how it is said with them. */
export interface Message {
  /** Every parameter of the message, in its order. */
  readonly parameters: readonly string[]
  /** Says it. `raw` decides plurals and selections, `printed` is what is shown. */
  readonly say: (raw: Raw, printed: Printed) => string
}
type Raw = Readonly<Record<string, string | number>>
type Printed = Readonly<Record<string, string>>

/** A shown parameter goes by a name of its own, so that one value can both decide a plural and be printed. */
const SHOWN = 'shown '

/** The parser's own numbers for its kinds of pieces. */
const KIND = { plain: 0, argument: 1, plural: 6, count: 7 }

/**
 * Parses an ICU message. Tags are plain text, since a crew reads "< 5 mph".
 * @param locale a BCP 47 tag, for plurals and the numbers inside them
 * @param transform changes the plain text between the parameters
 * @throws SyntaxError when the message is not ICU
 */
export function readMessage(source: string, locale: string, transform?: (plain: string) => string): Message {
  if (PLAIN.test(source)) return readPlain(source, transform ?? ((plain) => plain))
  const parsed = new IntlMessageFormat(source, locale, undefined, { ignoreTag: true }).getAst()
  const parameters = new Set<string>()
  const pieces = rewrite(parsed, { parameters, transform: transform ?? ((plain) => plain) })
  const format = new IntlMessageFormat(pieces, locale)
  return {
    parameters: [...parameters],
    say(raw, printed) {
      const shown = Object.entries(printed).map(([name, text]) => [SHOWN + name, text] as const)
      return String(format.format({ ...raw, ...Object.fromEntries(shown) }))
    },
  }
}

/** Text with nothing but whole parameters in it, and no apostrophe that would quote: most messages are no more. */
const PLAIN = /^(?:[^{}']|'(?!['{}<>])|\{\w+\})+$/

/** Says the same as the ICU formatter, which takes a hundred times as long to read it. */
function readPlain(source: string, transform: (plain: string) => string): Message {
  // Text stands at the even places, names at the odd ones.
  const parts = source
    .split(/\{(\w+)\}/)
    .map((part, at) => (at % 2 === 1 || part === '' ? part : transform(part)))
  return {
    parameters: [...new Set(parts.filter((_, at) => at % 2 === 1))],
    say: (_, printed) => parts.map((part, at) => (at % 2 === 1 ? given(printed, part) : part)).join(''),
  }
}

function given(printed: Printed, name: string): string {
  const text = printed[name]
  if (text === undefined) throw new RangeError(`Cannot say a message without its "${name}"`)
  return text
}

interface Rewriting {
  readonly parameters: Set<string>
  readonly transform: (plain: string) => string
  /** The plural that stands around, whose number `#` shows. */
  readonly counted?: string
}

function rewrite(pieces: readonly Piece[], how: Rewriting): Piece[] {
  return pieces.map((piece) => {
    if ('options' in piece) return rewriteOptions(piece, how)
    if (Number(piece.type) === KIND.count) return shown(how.counted ?? '')
    if (!('value' in piece)) return piece
    if (Number(piece.type) === KIND.plain) return { ...piece, value: how.transform(piece.value) } as Piece
    how.parameters.add(piece.value)
    return Number(piece.type) === KIND.argument ? shown(piece.value) : piece
  })
}

function rewriteOptions(piece: Extract<Piece, { options: unknown }>, how: Rewriting): Piece {
  how.parameters.add(piece.value)
  const counted = Number(piece.type) === KIND.plural ? { counted: piece.value } : {}
  const options = Object.entries(piece.options).map(([name, option]) => {
    return [name, { ...option, value: rewrite(option.value, { ...how, ...counted }) }] as const
  })
  return { ...piece, options: Object.fromEntries(options) } as Piece
}

function shown(parameter: string): Piece {
  return { type: KIND.argument, value: SHOWN + parameter } as unknown as Piece
}
