import { say } from '#src/conversation/text.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { SPECIFIC_LENGTH } from '../elements.ts'
import { recorded } from '../not-recorded.ts'
import type { RecordDraft } from '../record.ts'
import type { Finding, RecordRule } from './rule.ts'
import { finding, lacking } from './rule.ts'

/**
 * One tenth of an acre in square feet, computed from 43,560: spots below it in one day may be described in short
 * (Iowa State University Extension, Pesticide Recordkeeping Law Amended, 12 May 1995, of the former federal rule).
 */
export const SPOT_FORM_FT2 = '4356'

/** Is the place told by words alone, so that the short form for spots is used? */
function isShortForm(record: RecordDraft): boolean {
  return recorded(record.placeAddress) === undefined && recorded(record.placeMark) === undefined
}

export const v20: RecordRule = {
  id: 'V20',
  source:
    'Iowa State University Extension, 12 May 1995; University of Illinois Extension, 29 May 2025 (both of the former federal rule); 01-026 Code of Maine Rules ch. 50',
  check(record, context) {
    const absent = lacking('V20', ['extent'], record, context)
    if (recorded(record.coverage) !== 'spots') return absent
    const fields = ['place', 'placeWords']
    const found: Finding[] = [...absent]
    if (isShortForm(record) && ['greenhouse', 'nursery'].includes(recorded(record.grounds) ?? 'turf'))
      found.push(finding('V20', say('record.v20-grounds'), { fields }))
    const area = recorded(record.treatedArea)
    const total = big(context.spotFt2Elsewhere ?? 0).plus(area === undefined ? 0 : amountIn(area, 'ft2'))
    if (isShortForm(record) && compareNumbers(total, SPOT_FORM_FT2) >= 0) {
      const figures = {
        total: { value: total.toFixed(), unit: 'ft2' },
        limit: { value: SPOT_FORM_FT2, unit: 'ft2' },
      }
      found.push(finding('V20', say('record.v20-too-much', figures), { fields }))
    }
    return found
  },
}

/** Words that name no place at all. */
const NO_PLACE =
  /^(spot|spots|spot[ -](application|treatment|spray)s?|yard|lawn|grass|here|site|manchas?|c[eé]sped)\.?$/i

export const v21: RecordRule = {
  id: 'V21',
  source:
    '4 Texas Administrative Code 7.33; Wisconsin ATCP 29.21; eight letters as the least are a proposal of this project',
  check(record, context) {
    const absent = lacking('V21', ['place', 'place-specific', 'county'], record, context)
    const words = recorded(record.placeWords)?.words.trim()
    if (words === undefined || !isShortForm(record)) return absent
    if (!NO_PLACE.test(words) && words.length >= SPECIFIC_LENGTH) return absent
    return [...absent, finding('V21', say('record.v21-vague', { words }), { fields: ['placeWords'] })]
  },
}

export const v41: RecordRule = {
  id: 'V41',
  source: '4 Texas Administrative Code 7.33',
  check(record, context) {
    const absent = lacking('V41', ['site-order'], record, context)
    const order = recorded(record.siteOrder)
    const fields = ['siteOrder']
    const sites = context.sitesOfMix ?? 1
    if (order === undefined)
      return sites > 1 && record.siteOrder === undefined
        ? [...absent, finding('V41', say('record.v41-order', { sites }), { fields })]
        : absent
    if (order.place > order.of)
      return [
        ...absent,
        finding('V41', say('record.v41-beyond', { place: order.place, of: order.of }), { fields }),
      ]
    return absent
  },
}
