import { figuresFor } from './number-words.ts'
import type { Expected, QuantityProblem } from './problem.ts'
import type { Result } from './result.ts'
import { fail, ok } from './result.ts'

/** Longer than anything that is a quantity; what is longer is not read at all. */
export const LONGEST_TEXT = 80

/** So much of a typed text comes back in a sentence. */
const LONGEST_QUOTE = 40

const VULGAR = /[\u00bc-\u00be\u2150-\u215e\u2189]/g
/** The spaces that only formatters put between groups of three digits. */
const GROUPING = /(?<=\d)[\u00a0\u2007\u2009\u202f](?=\d{3}(?!\d))/g
/** Zero-width characters, direction marks, soft hyphens, variation selectors, halves of a broken pair. */
const INVISIBLE = /\p{Cf}|\p{VS}|\p{Cs}/gu
const CONTROL = /\p{Cc}/gu
const MARKS = /\p{M}/gu

/** Nothing in it that would have to be changed, as in nearly everything that is typed or stands on a label. */
const PLAIN = /^[!-~]+(?: [!-~]+)*$/

function spellFraction(sign: string): string {
  return ` ${sign.normalize('NFKD').replace('\u2044', '/')} `
}

/**
 * The typed text in plain characters: fractions spelled out, special spaces, slashes, dashes, quotes and
 * superscripts made ordinary, accents and invisible marks gone, the case kept.
 */
export function plainText(text: string): string {
  if (PLAIN.test(text)) return text
  return text
    .replace(INVISIBLE, '')
    .replace(GROUPING, '')
    .replace(VULGAR, spellFraction)
    .replace(/[\u2044\u2215\u29f8]/g, '/')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\u2018\u2019\u2032]/g, "'")
    .replace(/[\u201c\u201d\u2033]/g, '"')
    .replace(/[\u00b0\u00ba\u02da]/g, '')
    .replace(/\u2103/g, 'C')
    .replace(/\u2109/g, 'F')
    .normalize('NFKC')
    .normalize('NFD')
    .replace(MARKS, '')
    .replace(CONTROL, ' ')
    .replace(/\s+/g, ' ')
    .trim()
}

/** What was typed, short enough to be shown in a sentence. */
export function quote(text: string): string {
  const clean = text.replace(INVISIBLE, '').replace(CONTROL, ' ').replace(/\s+/g, ' ').trim()
  const letters = [...clean]
  return letters.length > LONGEST_QUOTE ? `${letters.slice(0, LONGEST_QUOTE - 1).join('')}…` : clean
}

const IMPERIAL = /\b(imp|imperial(es)?|uk|british|ingles(es)?|britanic[oa]s?)\b/i
/** A capital M standing alone or before square feet: thousand to some, meter to others. */
const CAPITAL_M = /(?<![A-Za-z])M(?![A-Za-z\d])|(?<![A-Za-z])M(?=\s*(sq|ft|pies|square))|\bmsf\b/

/** The checks that come before any reading: empty, too long, imperial measure, M for thousand. */
export function openText(text: string, expected: Expected): Result<string, QuantityProblem> {
  if ([...text].length > LONGEST_TEXT) return fail({ kind: 'too-long', limit: LONGEST_TEXT })
  const plain = plainText(text)
  if (plain === '') return fail({ kind: 'empty', expected })
  if (IMPERIAL.test(plain)) return fail({ kind: 'imperial', text: quote(text) })
  if (CAPITAL_M.test(plain) || /\bMSF\b/.test(plain))
    return fail({ kind: 'm-for-thousand', text: quote(text), suggestion: spellThousand(plain) })
  return ok(figuresFor(plain))
}

/** The same text with thousand square feet written out, as a proposal. */
function spellThousand(plain: string): string {
  return quote(
    plain
      .replace(/(\d)\s*(?:MSF|msf|M\s*(?:sq\.? ?ft\.?|ft2|square feet)?)(?![A-Za-z])/, '$1,000 ft2')
      .replace(/(^|[\s/])(MSF|msf|M)(\s*(sq\.? ?ft\.?|ft2|square feet))?(?![A-Za-z])/, '$11000 ft2'),
  )
}
