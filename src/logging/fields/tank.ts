import { bareUnitsOf } from '#src/conversation/own-units.ts'
import { say } from '#src/conversation/text.ts'
import { quantityTrouble } from '#src/conversation/trouble.ts'
import { readDroplet } from '#src/label/read-droplet.ts'
import { parseQuantity } from '#src/quantity/parse.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { notRecorded, recorded } from '#src/record/not-recorded.ts'
import { methods } from '#src/record/record.ts'
import type { LogEnv } from '../env.ts'
import {
  bad,
  choiceOf,
  chosenOf,
  freeText,
  good,
  isNone,
  type LogField,
  languageOf,
  printAmount,
  readAmount,
} from './field.ts'

const ALL = /^(all|all of it|everything|the rest|rest|todo|toda|el resto|completo)\.?$/i

/** How much of the mix went on here: a volume, or all that was left. */
export const mixDrawn: LogField = {
  keys: ['mixDrawn'],
  show: ({ draft }) =>
    printAmount(recorded(draft.mixDrawn) ?? recorded(draft.leftover) ?? recorded(draft.mixMade)),
  read(text, env) {
    const left = recorded(env.draft.leftover) ?? recorded(env.draft.mixMade)
    if (ALL.test(text.trim()) && left !== undefined) return good({ mixDrawn: left })
    const { volume } = bareUnitsOf(env.tools)
    return readAmount(text, env, { expect: 'volume', bareUnit: volume }, (drawn) => ({ mixDrawn: drawn }))
  },
}

export const method: LogField = {
  keys: ['method'],
  shape: choiceOf(methods, (id) => say(`logging.method.${id}`)),
  show: ({ draft }) => recorded(draft.method)?.kind ?? '',
  read(text, env) {
    const kind = chosenOf(methods, text)
    return kind === undefined
      ? good({ method: { kind: 'other', words: freeText(text, env.tools) } })
      : good({ method: { kind } })
  },
}

export const totalMix: LogField = {
  keys: ['totalMix'],
  show: ({ draft }) => printAmount(recorded(draft.totalMix)),
  read(text, env) {
    const { volume } = bareUnitsOf(env.tools)
    return readAmount(text, env, { expect: ['volume', 'mass'], bareUnit: volume }, (mix) => ({
      totalMix: mix,
    }))
  },
}

const WATER = /\b(water|agua)\b/i

/** `2 gal water`, `water`, `none` for what is spread dry; anything else by its name. */
export const carrier: LogField = {
  keys: ['carrier', 'carrierAmount'],
  show: ({ draft }) => {
    const kind = recorded(draft.carrier)
    return [
      printAmount(recorded(draft.carrierAmount)),
      kind?.kind === 'other' ? wordsOf(kind.words) : (kind?.kind ?? ''),
    ]
      .filter(Boolean)
      .join(' ')
  },
  read(text, env) {
    if (isNone(text) || /^(dry|seco)$/i.test(text.trim()))
      return good({ carrier: { kind: 'none' }, carrierAmount: notRecorded })
    const [, number = '', name = ''] =
      /^\s*([\d.,/\s]+(?:fl\.? ?oz|[a-z]+)?)?\s*(?:of |de )?(.*)$/i.exec(text) ?? []
    const volume = readVolume(number, env)
    const kind = WATER.test(text)
      ? ({ kind: 'water' } as const)
      : ({ kind: 'other', words: freeText(name === '' ? text : name, env.tools) } as const)
    return good({ carrier: kind, ...(volume === null ? {} : { carrierAmount: volume }) })
  },
}

function readVolume(text: string, env: LogEnv) {
  if (text.trim() === '') return null
  const read = parseQuantity(text.trim(), {
    locale: languageOf(env),
    expect: 'volume',
    bareUnit: bareUnitsOf(env.tools).volume,
  })
  return read.ok ? read.value : null
}

const wordsOf = (words: { words?: string } | { removed: true } | undefined) =>
  words !== undefined && 'words' in words ? (words.words ?? '') : ''

/** `3.6 g in 2 gal`. */
export const recipe: LogField = {
  keys: ['recipe'],
  show: ({ draft }) => {
    const said = recorded(draft.recipe)
    return said === undefined ? '' : `${printAmount(said.concentrate)} in ${printAmount(said.diluent)}`
  },
  read(text, env) {
    const [product = '', water = ''] = text.split(/\s+(?:in|en|to|por|per)\s+/i)
    const [form] = (recorded(env.draft.products) ?? []).map((one) => recorded(one.form))
    const concentrate = parseQuantity(product, {
      locale: languageOf(env),
      expect: ['mass', 'volume'],
      ...(form === undefined ? {} : { ounce: form === 'dry' ? ('oz wt' as const) : ('fl oz' as const) }),
    })
    if (!concentrate.ok) return bad(quantityTrouble(concentrate.error))
    const diluent = parseQuantity(water.replace(WATER, '').trim(), {
      locale: languageOf(env),
      expect: 'volume',
      bareUnit: bareUnitsOf(env.tools).volume,
    })
    return diluent.ok
      ? good({ recipe: { concentrate: concentrate.value, diluent: diluent.value } })
      : bad(quantityTrouble(diluent.error))
  },
}

/** `none`, or each with its amount: `spreader-sticker 1 fl oz; dye`. */
export const adjuvants: LogField = {
  keys: ['adjuvants'],
  show: ({ draft }) => {
    const said = recorded(draft.adjuvants)
    if (said === undefined) return ''
    return said.length === 0
      ? 'none'
      : said.map(({ name, amount }) => `${name} ${printAmount(recorded(amount))}`.trim()).join('; ')
  },
  read(text, env) {
    if (isNone(text)) return good({ adjuvants: [] })
    const each = text
      .split(';')
      .map((one) => one.trim())
      .filter((one) => one !== '')
      .slice(0, 6)
    return good({ adjuvants: each.map((one) => adjuvantOf(one, env)) })
  },
}

function adjuvantOf(text: string, env: LogEnv) {
  const [, name = text, number = ''] = /^(.*?\D)\s+(\d.*)$/.exec(text) ?? []
  const read = parseQuantity(number, { locale: languageOf(env), expect: ['volume', 'mass'], ounce: 'fl oz' })
  return read.ok
    ? { name: name.trim().slice(0, 200), amount: read.value as Quantity<'fl oz'> }
    : { name: text.slice(0, 200), amount: notRecorded }
}

const fates = [
  'next site',
  'kept in the tank',
  'sprayed where the label allows',
  'waste service',
  'other',
] as const

export const leftoverFate: LogField = {
  keys: ['leftoverFate'],
  shape: choiceOf(fates, (id) => say(`logging.fate.${id}`)),
  show: ({ draft }) => recorded(draft.leftoverFate)?.fate ?? '',
  read(text, env) {
    const fate = chosenOf(fates, text)
    if (fate !== undefined) return good({ leftoverFate: { fate } })
    return DRAIN.test(text)
      ? bad(say('logging.fate-drain'))
      : good({ leftoverFate: { fate: 'other', words: freeText(text, env.tools) } })
  },
}

/** No label and no law lets leftover mix go down a drain or into water. */
const DRAIN =
  /\b(drain|sewer|gutter|ditch|creek|pond|lake|river|dump(ed)?|desag[uü]e|alcantarilla|arroyo|zanja|r[ií]o|lago|cuneta)\b/i

export const mixingPlace: LogField = {
  keys: ['mixingPlace'],
  show: ({ draft }) => {
    const said = recorded(draft.mixingPlace)
    return said === undefined ? '' : said.at === 'other' ? wordsOf(said.words) : said.at
  },
  read(text, env) {
    if (/^(the )?(shop|yard|base|taller|bodega|base)$/i.test(text.trim()))
      return good({ mixingPlace: { at: 'shop' } })
    if (/truck|on site|at the site|cami[oó]n|camioneta|en el sitio/i.test(text))
      return good({ mixingPlace: { at: 'truck at the site' } })
    return good({ mixingPlace: { at: 'other', words: freeText(text, env.tools) } })
  },
}

export const siteOrder: LogField = {
  keys: ['siteOrder'],
  show: ({ draft }) => {
    const said = recorded(draft.siteOrder)
    return said === undefined ? '' : `${said.place} / ${said.of}`
  },
  read(text) {
    const [, place, of] = /^\s*(\d{1,2})\s*(?:\/|of|de)\s*(\d{1,2})\s*$/i.exec(text) ?? []
    return place === undefined || of === undefined || Number(place) < 1 || Number(of) < 1
      ? bad(say('logging.order-needed', { typed: text }))
      : good({ siteOrder: { place: Number(place), of: Number(of) } })
  },
}

/** The class of the drops; the nozzle comes with the sprayer, or is named before it: `TT 02, coarse`. */
export const droplets: LogField = {
  keys: ['droplets', 'nozzle'],
  show: ({ draft }) => [recorded(draft.nozzle), recorded(draft.droplets)].filter(Boolean).join(', '),
  read(text) {
    const parts = text.split(/[,;]/).map((one) => one.trim())
    const sized = parts.find((part) => readDroplet(part) !== undefined)
    const size = sized === undefined ? undefined : readDroplet(sized)
    const nozzle = parts.find((part) => part !== '' && part !== sized)
    return size === undefined && nozzle === undefined
      ? bad(say('logging.droplets-needed', { typed: text }))
      : good({
          ...(size === undefined ? {} : { droplets: size }),
          ...(nozzle === undefined ? {} : { nozzle: nozzle.slice(0, 200) }),
        })
  },
}
