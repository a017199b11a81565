import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'

/** A federal registration number taken apart: company, product, and who distributes it under an own name. */
export interface RegistrationNumber {
  readonly company: string
  readonly product: string
  /** Two letters that California sets between product and distributor for a revision. */
  readonly revision?: string
  readonly distributor?: string
  /** An experimental use permit: only for who holds the permit. */
  readonly experimental: boolean
}

export type RegistrationProblem = 'malformed' | 'file-symbol' | 'establishment'

const DASHES = /[\u2010-\u2015\u2212\uFE58\uFE63\uFF0D]/g
const LEAD_IN = /^(U\.?S\.?)?E\.?P\.?A\.?(REG(ISTRATION|\.)?|EST(ABLISHMENT|\.)?)?(NO\.?|NUMBER|#)?:?/

// Lengths after California's Department of Pesticide Regulation, "What's in a Registration Number"
// (https://www.cdpr.ca.gov/docs/label/epadef.htm): company 1 to 7 digits, product up to 5, distributor up to 7, with
// two letters of revision before it.
const NUMBER = /^(\d{1,7})-(\d{1,5})(?:-([A-Z]{2}))?(?:-(\d{1,7}))?$/
// Letters out of "REGULATION" in the place of the product stand for an application not yet granted (EPA Label Review
// Manual, chapter 14, Identification Numbers, Nov 2012).
const FILE_SYMBOL = /^\d{1,7}-[REGULATION]+$/
// An establishment number names the last place of production (EPA Pesticide Registration Manual, chapter 14, How to
// Obtain an EPA Company or Establishment Number). Its pattern, and that of a permit, are from memory.
const ESTABLISHMENT = /^\d{1,7}-[A-Z]{2,3}-\d{1,4}$/
const PERMIT = /^(\d{1,7})-EUP-(\w+)$/
// Two letters of the state, two digits of the year, a serial of four (from memory).
const LOCAL_NEED = /^([A-Z]{2})-?\d{6}$/

/** Takes off "EPA Reg. No.", blanks and typographic dashes. */
function tidy(text: string): string {
  return text.normalize('NFKC').replace(DASHES, '-').toUpperCase().replace(/\s+/g, '').replace(LEAD_IN, '')
}

/**
 * Reads a registration number in the form that labels print it. A good form proves nothing more than the form.
 * A number such as `1234-CA-1` is read as an establishment number, which stands beside it on the label.
 */
export function readRegistrationNumber(text: string): Result<RegistrationNumber, RegistrationProblem> {
  const number = tidy(text)
  const permit = PERMIT.exec(number)
  if (permit) return ok({ company: permit[1] ?? '', product: permit[2] ?? '', experimental: true })
  const parts = NUMBER.exec(number)
  if (parts) return ok(partsOf(parts))
  if (FILE_SYMBOL.test(number)) return fail('file-symbol')
  if (ESTABLISHMENT.test(number)) return fail('establishment')
  return fail('malformed')
}

function partsOf([, company = '', product = '', revision, distributor]: RegExpExecArray): RegistrationNumber {
  return {
    company,
    product,
    experimental: false,
    ...(revision === undefined ? {} : { revision }),
    ...(distributor === undefined ? {} : { distributor }),
  }
}

/** The state of a Special Local Need number such as `NC-250003`; null when it has not that form. */
export function readLocalNeedState(text: string): string | null {
  return LOCAL_NEED.exec(tidy(text).replace(/^SLN(NO\.?)?/, ''))?.[1] ?? null
}
