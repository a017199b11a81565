import { say } from '#src/conversation/text.ts'
import { holds } from '../conditions.ts'
import { recorded } from '../not-recorded.ts'
import type { RecordDraft } from '../record.ts'
import type { License } from '../values.ts'
import type { Finding, RecordContext, RecordRule, RuleId } from './rule.ts'
import { finding, lacking } from './rule.ts'

const EPA_PLAN = 'EPA, Applicator Recordkeeping Requirements under the EPA Plan'

/** First and last name: two words at least. */
const FULL_NAME = /\S+\s+\S+/

function licenseOf(record: RecordDraft): License | undefined {
  const license = recorded(record.license)
  return license === undefined || 'none' in license ? undefined : license
}

function supervisorOf(record: RecordDraft) {
  const supervisor = recorded(record.supervisor)
  return supervisor === undefined || 'none' in supervisor ? undefined : supervisor
}

function expired(rule: RuleId, license: License | undefined, record: RecordDraft, field: string): Finding[] {
  const date = recorded(record.date)
  const { expiresOn, number } = license ?? {}
  if (date === undefined || expiresOn === undefined || number === undefined || expiresOn >= date) return []
  const text = say('record.v30-expired', { number, day: { day: expiresOn } })
  return [finding(rule, text, { about: 'label', fields: [field] })]
}

export const v30: RecordRule = {
  id: 'V30',
  source: `Wisconsin ATCP 29.21; ${EPA_PLAN}`,
  check(record, context) {
    const absent = lacking('V30', ['applicator', 'license', 'company', 'company-address'], record, context)
    const name = recorded(record.applicator)?.name
    const license = licenseOf(record)
    return [
      ...absent,
      ...(name !== undefined && !FULL_NAME.test(name.trim())
        ? [finding('V30', say('record.v30-name', { name }), { fields: ['applicator'] })]
        : []),
      ...expired('V30', license, record, 'license'),
      ...wrongCategory(license, context),
    ]
  },
}

function wrongCategory(license: License | undefined, { settings }: RecordContext): Finding[] {
  const { turfCategories } = settings
  const category = license?.category
  if (category === undefined || turfCategories.length === 0 || turfCategories.includes(category)) return []
  return [finding('V30', say('record.v30-category', { category }), { about: 'label', fields: ['license'] })]
}

export const v31: RecordRule = {
  id: 'V31',
  source: `${EPA_PLAN}; 4 Texas Administrative Code 7.33`,
  check(record, context) {
    const absent = lacking('V31', ['supervisor', 'training', 'helpers'], record, context)
    const isUncertified = holds('uncertified', { draft: record, entries: [] })
    const supervisor = recorded(record.supervisor)
    const nobody =
      isUncertified && supervisor !== undefined && 'none' in supervisor
        ? [finding('V31', say('record.v31-nobody'), { about: 'label', fields: ['supervisor'] })]
        : []
    return [...absent, ...nobody, ...expired('V31', supervisorOf(record)?.license, record, 'supervisor')]
  },
}

export const v32: RecordRule = {
  id: 'V32',
  source: EPA_PLAN,
  check(record, { book }) {
    const used = recorded(record.products) ?? []
    const entries = book.map(({ entry }) => entry).filter(({ name }) => used.some((one) => one.name === name))
    if (!holds('restricted', { draft: record, entries })) return []
    if (licenseOf(record) !== undefined || supervisorOf(record) !== undefined) return []
    return [
      finding('V32', say('record.v32-restricted'), { about: 'label', fields: ['license', 'supervisor'] }),
    ]
  },
}
