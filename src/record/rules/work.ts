import { sayDroplet } from '#src/conversation/say-droplet.ts'
import { say } from '#src/conversation/text.ts'
import { recorded } from '../not-recorded.ts'
import type { Finding, RecordRule } from './rule.ts'
import { finding, lacking, productsOf } from './rule.ts'

const OUT_OF_SCOPE = ['aerial', 'drone', 'chemigation', 'fumigation']

export const v27: RecordRule = {
  id: 'V27',
  source:
    'Washington Administrative Code 16-228-1225; 4 Texas Administrative Code 7.33; aerial, drone and chemigation are out of scope by a proposal of this project',
  check(record, context) {
    const absent = lacking('V27', ['method'], record, context)
    const method = recorded(record.method)
    const fields = ['method']
    if (method === undefined) return absent
    if (OUT_OF_SCOPE.includes(method.kind))
      return [
        ...absent,
        finding('V27', say('record.v27-out-of-scope', { method: method.kind }), { about: 'label', fields }),
      ]
    return method.kind === 'other' && method.words === undefined
      ? [...absent, finding('V27', say('record.v27-words'), { fields })]
      : absent
  },
}

export const v28: RecordRule = {
  id: 'V28',
  source: '4 Texas Administrative Code 7.33; New Jersey 7:30-7.3; 01-026 Code of Maine Rules ch. 50',
  check(record, context) {
    const asked = ['total-mix', 'carrier-kind', 'carrier-amount', 'recipe', 'concentration'] as const
    const absent = lacking('V28', asked, record, context)
    const carrier = recorded(record.carrier)
    return carrier?.kind === 'other' && carrier.words === undefined
      ? [...absent, finding('V28', say('record.v28-diluent'), { fields: ['carrier'] })]
      : absent
  },
}

export const v38: RecordRule = {
  id: 'V38',
  source: 'Wisconsin ATCP 29.21',
  check(record, context) {
    const absent = lacking('V38', ['mixing-place'], record, context)
    const place = recorded(record.mixingPlace)
    return place?.at === 'other' && place.words === undefined
      ? [...absent, finding('V38', say('record.v38-where'), { fields: ['mixingPlace'] })]
      : absent
  },
}

export const v39: RecordRule = {
  id: 'V39',
  source:
    'Georgia Rules 40-21-5; 01-026 Code of Maine Rules ch. 50 s. 2; asked every time: proposal of this project',
  check(record, context) {
    const absent = lacking('V39', ['unusual'], record, context)
    const unusual = recorded(record.unusual)
    const fields = ['unusual']
    if (unusual?.happened !== true) return absent
    return [
      ...absent,
      ...(unusual.words === undefined ? [finding('V39', say('record.v39-words'), { fields })] : []),
      ...(unusual.incidentId === undefined ? [finding('V39', say('record.v39-incident'), { fields })] : []),
    ]
  },
}

export const v46: RecordRule = {
  id: 'V46',
  source: 'Code of Maryland Regulations 15.20.10.13',
  check(record, context) {
    const absent = lacking('V46', ['fertilizer'], record, context)
    const fertilizer = recorded(record.fertilizer)
    return fertilizer?.applied === true && fertilizer.ownRecord === undefined
      ? [...absent, finding('V46', say('record.v46-own-record'), { weight: 'warn', fields: ['fertilizer'] })]
      : absent
  },
}

export const v47: RecordRule = {
  id: 'V47',
  source: '40 CFR 170.405; ANSI/ASAE S572, Spray Nozzle Classification by Droplet Spectra',
  check(record, context) {
    const absent = lacking('V47', ['droplets'], record, context)
    const used = recorded(record.droplets)
    if (used === undefined) return absent
    const wrong = productsOf(record, context).flatMap(({ product, booked }): Finding[] => {
      const classes = booked?.entry.limits.droplets?.classes
      if (classes === undefined || classes.includes(used)) return []
      const figures = {
        product: product.name,
        used: sayDroplet(used),
        classes: { all: classes.map(sayDroplet), join: 'or' } as const,
      }
      return [finding('V47', say('record.v47-class', figures), { about: 'label', fields: ['droplets'] })]
    })
    return [...absent, ...wrong]
  },
}
