import { say } from '#src/conversation/text.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { License } from '#src/record/values.ts'
import { readWhen } from '#src/when/read-when.ts'
import type { LogEnv } from '../env.ts'
import { readAddress } from '../from-place.ts'
import { bad, good, isNone, type LogField, languageOf } from './field.ts'

const list = (text: string) =>
  text
    .split(/[,;]/)
    .map((one) => one.trim())
    .filter((one) => one !== '')

function readDate(text: string, env: LogEnv): string | null {
  const read = readWhen(text, { now: { day: env.tools.today, minutes: 0 }, language: languageOf(env) })
  return read.ok ? (read.value.day ?? null) : null
}

/** `NC-12345, 2027-12-31`: the number, then the day on which it runs out. */
function readLicense(parts: readonly string[], env: LogEnv): License | null {
  const [number, expires] = parts
  if (number === undefined) return null
  if (expires === undefined) return { number: number.slice(0, 200) }
  const day = readDate(expires, env)
  return day === null ? null : { number: number.slice(0, 200), expiresOn: day }
}

const printLicense = ({ number, expiresOn }: License) => [number, expiresOn].filter(Boolean).join(', ')

export const applicator: LogField = {
  keys: ['applicator'],
  show: ({ draft }) => recorded(draft.applicator)?.name ?? '',
  read: (text) => good({ applicator: { name: text.trim().slice(0, 200) } }),
}

export const license: LogField = {
  keys: ['license'],
  show: ({ draft }) => {
    const said = recorded(draft.license)
    return said === undefined ? '' : 'none' in said ? 'none' : printLicense(said)
  },
  read(text, env) {
    if (isNone(text)) return good({ license: { none: true } })
    const read = readLicense(list(text), env)
    return read === null ? bad(say('logging.license-needed', { typed: text })) : good({ license: read })
  },
}

/** `Name, license number, expiry`. */
export const supervisor: LogField = {
  keys: ['supervisor'],
  show: ({ draft }) => {
    const said = recorded(draft.supervisor)
    return said === undefined ? '' : 'none' in said ? 'none' : `${said.name}, ${printLicense(said.license)}`
  },
  read(text, env) {
    if (isNone(text)) return good({ supervisor: { none: true } })
    const [name, ...parts] = list(text)
    const read = readLicense(parts, env)
    return name === undefined || read === null
      ? bad(say('logging.supervisor-needed', { typed: text }))
      : good({ supervisor: { name: name.slice(0, 200), license: read } })
  },
}

/** `2026-03-01, who gave it, what it was`. */
export const training: LogField = {
  keys: ['training'],
  show: ({ draft }) => {
    const said = recorded(draft.training)
    return said === undefined ? '' : `${said.on}, ${said.by}, ${said.title}`
  },
  read(text, env) {
    const [first = '', by, title] = list(text)
    const on = readDate(first, env)
    return on === null || by === undefined || title === undefined
      ? bad(say('logging.training-needed', { typed: text }))
      : good({ training: { on, by: by.slice(0, 200), title: title.slice(0, 200) } })
  },
}

export const helpers: LogField = {
  keys: ['helpers'],
  show: ({ draft }) => {
    const said = recorded(draft.helpers)
    return said === undefined ? '' : said.length === 0 ? 'none' : said.map(({ name }) => name).join(', ')
  },
  read: (text) =>
    good({
      helpers: isNone(text)
        ? []
        : list(text)
            .slice(0, 12)
            .map((name) => ({ name: name.slice(0, 200) })),
    }),
}

export const customerName: LogField = {
  keys: ['customerName'],
  show: ({ draft }) => recorded(draft.customerName) ?? '',
  read: (text) => good({ customerName: text.trim().slice(0, 200) }),
}

/** `Company; its address`. */
export const company: LogField = {
  keys: ['company', 'companyAddress'],
  show: ({ draft }) => {
    const address = recorded(draft.companyAddress)
    return [
      recorded(draft.company),
      address === undefined
        ? ''
        : `${address.street}, ${address.town}, ${address.state} ${address.zip ?? ''}`.trim(),
    ]
      .filter(Boolean)
      .join('; ')
  },
  read(text) {
    const [name = '', ...rest] = text.split(';').map((one) => one.trim())
    const address = readAddress(rest.join('; '))
    if (name === '') return bad(say('logging.company-needed', { typed: text }))
    if (rest.length > 0 && address === null)
      return bad(say('logging.address-needed', { typed: rest.join('; ') }))
    return good({ company: name.slice(0, 200), ...(address === null ? {} : { companyAddress: address }) })
  },
}
