import { bareUnitsOf } from '#src/conversation/own-units.ts'
import { say } from '#src/conversation/text.ts'
import { plantName, taxonByName } from '#src/plants.ts'
import { notRecorded, recorded } from '#src/record/not-recorded.ts'
import { readAddress } from '../from-place.ts'
import { bad, choiceOf, chosenOf, freeText, good, type LogField, printAmount, readAmount } from './field.ts'

const printAddress = (address: { street: string; town: string; state: string; zip?: string } | undefined) =>
  address === undefined
    ? ''
    : `${address.street}, ${address.town}, ${address.state}${address.zip === undefined ? '' : ` ${address.zip}`}`

/** An address; whatever is none is a description of the place. */
export const place: LogField = {
  keys: ['placeAddress'],
  show: ({ draft }) => printAddress(recorded(draft.placeAddress)),
  read(text, env) {
    const address = readAddress(text)
    return address === null
      ? good({ placeWords: freeText(text, env.tools) })
      : good({ placeAddress: address })
  },
}

export const customerAddress: LogField = {
  keys: ['customerAddress'],
  show: ({ draft }) => printAddress(recorded(draft.customerAddress) ?? recorded(draft.placeAddress)),
  read(text) {
    const address = readAddress(text)
    return address === null
      ? bad(say('logging.address-needed', { typed: text }))
      : good({ customerAddress: address })
  },
}

/** Free words, kept as they were typed. */
const wordsIn = (key: 'placeWords' | 'notes'): LogField => ({
  keys: [key],
  shape: () => ({ kind: 'long-text' }),
  show: ({ draft }) => recorded(draft[key])?.words ?? '',
  read: (text, { tools }) => good({ [key]: freeText(text, tools) }),
})

export const placeWords = wordsIn('placeWords')

/** Whatever else there is to say; also why an amount is not what rate and area ask for. */
export const notes = wordsIn('notes')

/** `lawn; tall fescue, Kentucky bluegrass`: what the ground is for, then its grasses. */
export const site: LogField = {
  keys: ['use', 'turfs'],
  show: ({ draft }) => [recorded(draft.use), recorded(draft.turfs)?.join(', ')].filter(Boolean).join('; '),
  read(text, env) {
    const { use: known, turfs: grasses } = env.draft
    // What the form showed and nobody touched is no mistake: the use stays among what is missing.
    if (recorded(known) === undefined && grasses !== undefined && text.trim() === site.show?.(env))
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
    const size = recorded(draft.treatedArea)
    if (size !== undefined) return printAmount(size)
    return draft.coverage === 'whole area' && area !== null ? `${area.squareFeet} ft2` : ''
  },
  read: (text, env) =>
    readAmount(text, env, { expect: 'area', bareUnit: bareUnitsOf(env.tools).area }, (treatedArea) => ({
      treatedArea,
    })),
}

const bases = ['measured', 'spot calibration', 'estimate'] as const

export const areaBasis: LogField = {
  keys: ['areaBasis'],
  shape: choiceOf(bases, (id) => say(`logging.area-basis.${id}`)),
  show: ({ draft }) => recorded(draft.areaBasis) ?? '',
  read(text) {
    const found = chosenOf(bases, text)
    return found === undefined
      ? bad(say('logging.area-basis-needed', { typed: text }))
      : good({ areaBasis: found })
  },
}

export const county: LogField = {
  keys: ['county'],
  show: ({ draft }) => recorded(draft.county) ?? '',
  read: (text) => good({ county: text.trim().slice(0, 200) }),
}
