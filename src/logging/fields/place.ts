import { bareUnitsOf } from '#src/conversation/own-units.ts'
import { say } from '#src/conversation/text.ts'
import { quantityTrouble } from '#src/conversation/trouble.ts'
import { plantName, taxonByName } from '#src/plants.ts'
import { parseQuantity } from '#src/quantity/parse.ts'
import { notRecorded } from '#src/record/not-recorded.ts'
import { readAddress } from '../from-place.ts'
import { bad, freeText, good, type LogField, languageOf, standing } from './field.ts'

const printAddress = (address: { street: string; town: string; state: string; zip?: string } | undefined) =>
  address === undefined
    ? ''
    : `${address.street}, ${address.town}, ${address.state}${address.zip === undefined ? '' : ` ${address.zip}`}`

/** An address; whatever is none is a description of the place. */
export const place: LogField = {
  keys: ['placeAddress'],
  show: ({ draft }) => printAddress(standing(draft.placeAddress)),
  read(text, env) {
    const address = readAddress(text)
    return address === null ? good({ placeWords: freeText(text, env) }) : good({ placeAddress: address })
  },
}

export const customerAddress: LogField = {
  keys: ['customerAddress'],
  show: ({ draft }) => printAddress(standing(draft.customerAddress) ?? standing(draft.placeAddress)),
  read(text) {
    const address = readAddress(text)
    return address === null
      ? bad(say('logging.address-needed', { typed: text }))
      : good({ customerAddress: address })
  },
}

export const placeWords: LogField = {
  keys: ['placeWords'],
  shape: () => ({ kind: 'long-text' }),
  show: ({ draft }) => standing(draft.placeWords)?.words ?? '',
  read: (text, env) => good({ placeWords: freeText(text, env) }),
  isFree: true,
}

/** Whatever else there is to say; also why an amount is not what rate and area ask for. */
export const notes: LogField = {
  keys: ['notes'],
  shape: () => ({ kind: 'long-text' }),
  show: ({ draft }) => standing(draft.notes)?.words ?? '',
  read: (text, env) => good({ notes: freeText(text, env) }),
  isFree: true,
}

/** `lawn; tall fescue, Kentucky bluegrass`: what the ground is for, then its grasses. */
export const site: LogField = {
  keys: ['use', 'turfs'],
  show: ({ draft }) => [standing(draft.use), standing(draft.turfs)?.join(', ')].filter(Boolean).join('; '),
  read(text, env) {
    const { use: known, turfs: grasses } = env.draft
    // What the form showed and nobody touched is no mistake: the use stays among what is missing.
    if (standing(known) === undefined && grasses !== undefined && text.trim() === site.show?.(env))
      return good({ use: notRecorded, turfs: grasses, grounds: 'turf' })
    const [use = '', turfs] = text.split(';').map((one) => one.trim())
    if (turfs === undefined || turfs === '') return bad(say('logging.turf-needed', { typed: text }))
    const names = turfs
      .split(',')
      .map((one) => one.trim())
      .filter((one) => one !== '')
      .map((one) => {
        const taxon = taxonByName(one)
        return (taxon === undefined ? one : plantName(taxon.id, 'en')).slice(0, 200)
      })
    return names.length === 0 || names.length > 8 || use === ''
      ? bad(say('logging.turf-needed', { typed: text }))
      : good({ use: use.slice(0, 200), turfs: names, grounds: 'turf' })
  },
}

export const treatedArea: LogField = {
  keys: ['treatedArea'],
  show: ({ draft, area }) => {
    const size = standing(draft.treatedArea)
    if (size !== undefined) return `${size.value} ${size.unit}`
    return draft.coverage === 'whole area' && area !== null ? `${area.squareFeet} ft2` : ''
  },
  read(text, env) {
    const read = parseQuantity(text, {
      locale: languageOf(env),
      expect: 'area',
      bareUnit: bareUnitsOf(env.tools).area,
    })
    return read.ok ? good({ treatedArea: read.value }) : bad(quantityTrouble(read.error))
  },
}

export const areaBasis: LogField = {
  keys: ['areaBasis'],
  shape: () => ({
    kind: 'choice',
    options: (['measured', 'spot calibration', 'estimate'] as const).map((value) => ({
      value,
      label: say(`logging.area-basis.${value.replace(' ', '-')}`),
    })),
  }),
  show: ({ draft }) => standing(draft.areaBasis) ?? '',
  read(text) {
    const found = (['measured', 'spot calibration', 'estimate'] as const).find(
      (one) => one === text.trim().toLowerCase(),
    )
    return found === undefined
      ? bad(say('logging.area-basis-needed', { typed: text }))
      : good({ areaBasis: found })
  },
}

export const county: LogField = {
  keys: ['county'],
  show: ({ draft }) => standing(draft.county) ?? '',
  read: (text) => good({ county: text.trim().slice(0, 200) }),
}
