import { bareUnitsOf } from '#src/conversation/own-units.ts'
import { say } from '#src/conversation/text.ts'
import { momentOf } from '#src/desk/moments.ts'
import { decimalText } from '#src/quantity/big.ts'
import { quantity } from '#src/quantity/quantity.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { Moment } from '#src/record/values.ts'
import { compassPoints, inversionSigns } from '#src/record/values.ts'
import type { LogEnv } from '../env.ts'
import {
  bad,
  choiceOf,
  good,
  isNone,
  type LogField,
  languageOf,
  printAmount,
  type Read,
  readAmount,
} from './field.ts'
import { readMoment } from './when.ts'

/** `8 mph at 7:10`: an earlier reading shows its hour; without one it was read at the start. */
function withHour(text: string, env: LogEnv, use: (value: string, takenAt: Moment) => Read): Read {
  const parts = /^(.*?)\s*(?:\b(?:at|a las?)\b|@)\s*(.+)$/i.exec(text.trim())
  if (parts?.[1] === undefined || parts[2] === undefined) return use(text.trim(), startOf(env))
  const taken = readMoment(parts[2], env)
  return 'problem' in taken ? taken.problem : use(parts[1], taken)
}

function startOf({ draft, tools }: LogEnv): Moment {
  return recorded(draft.startedAt) ?? momentOf(tools.crew.zone, tools.nowMs)
}

interface Reading {
  readonly value: unknown
  readonly takenAt: Moment
}

/** The last reading, with its hour where that is not the hour of the start. */
function shown(
  readings: readonly Reading[] | undefined,
  env: LogEnv,
  print: (value: never) => string,
): string {
  const last = readings?.at(-1)
  if (last === undefined) return ''
  const at =
    last.takenAt.local === startOf(env).local
      ? ''
      : ` ${languageOf(env) === 'es' ? 'a las' : 'at'} ${last.takenAt.local.slice(11)}`
  return `${print(last.value as never)}${at}`
}

const CALM = /^(calm|still|no wind|calma|sin viento|quieto)\.?$/i

export const windSpeed: LogField = {
  keys: ['windSpeed'],
  show: (env) => shown(recorded(env.draft.windSpeed), env, printAmount),
  read: (text, env) =>
    withHour(text, env, (typed, takenAt) => {
      if (CALM.test(typed) || isNone(typed))
        return good({ windSpeed: [{ value: quantity(0, 'mph'), takenAt }] })
      const bareUnit = bareUnitsOf(env.tools).speed
      return readAmount(typed, env, { expect: 'speed', bareUnit, allowZero: true }, (value) => ({
        windSpeed: [{ value, takenAt }],
      }))
    }),
}

export const windFrom: LogField = {
  keys: ['windFrom'],
  shape: choiceOf(compassPoints, (id) => say(`logging.wind-from.${id}`)),
  show: ({ draft }) => recorded(draft.windFrom)?.at(-1)?.value ?? '',
  read(text, env) {
    const typed = text.trim().toUpperCase()
    const point = compassPoints.find((one) => one.toUpperCase() === (SPANISH[typed] ?? typed))
    return point === undefined
      ? bad(say('logging.compass-needed', { typed: text }))
      : good({ windFrom: [{ value: point, takenAt: startOf(env) }] })
  },
}

/** West is O in Spanish. */
const SPANISH: Readonly<Record<string, string>> = {
  O: 'W',
  NO: 'NW',
  SO: 'SW',
  OESTE: 'W',
  ESTE: 'E',
  NORTE: 'N',
  SUR: 'S',
  NORTH: 'N',
  SOUTH: 'S',
  EAST: 'E',
  WEST: 'W',
}

export const temperature: LogField = {
  keys: ['temperature'],
  show: (env) => shown(recorded(env.draft.temperature), env, printAmount),
  read: (text, env) =>
    withHour(text, env, (typed, takenAt) => {
      const bareUnit = bareUnitsOf(env.tools).temperature
      return readAmount(typed, env, { expect: 'temperature', bareUnit, allowZero: true }, (value) => ({
        temperature: [{ value, takenAt }],
      }))
    }),
}

export const humidityPercent: LogField = {
  keys: ['humidityPercent'],
  show: (env) => shown(recorded(env.draft.humidityPercent), env, (value: string) => `${value} %`),
  read: (text, env) =>
    withHour(text, env, (typed, takenAt) => {
      const number = /^(\d{1,3}(?:[.,]\d{1,2})?)\s*(?:%|percent|por ciento)?$/i.exec(typed)?.[1]
      if (number === undefined || Number(number.replace(',', '.')) > 100)
        return bad(say('logging.percent-needed', { typed }))
      return good({ humidityPercent: [{ value: decimalText(number.replace(',', '.')), takenAt }] })
    }),
}

/** `48 / 6`: hours since the last rain and until the next; either may be unknown. */
export const rain: LogField = {
  keys: ['rain'],
  show: ({ draft }) => {
    const last = recorded(draft.rain)?.at(-1)?.value
    return last === undefined ? '' : `${last.hoursSince ?? '?'} / ${last.hoursUntil ?? '?'}`
  },
  read(text, env) {
    const [since, until] = text.split(/[/;,]| y | and /i).map((one) => /\d+(?:\.\d+)?/.exec(one)?.[0])
    if (since === undefined && until === undefined) return bad(say('logging.rain-needed', { typed: text }))
    const value = {
      ...(since === undefined ? {} : { hoursSince: decimalText(since) }),
      ...(until === undefined ? {} : { hoursUntil: decimalText(until) }),
    }
    return good({ rain: [{ value, takenAt: startOf(env) }] })
  },
}

export const inversion: LogField = {
  keys: ['inversion'],
  shape: () => ({
    kind: 'choices',
    options: [
      { value: 'none', label: say('logging.sign-none') },
      ...inversionSigns.map((sign) => ({ value: sign, label: say(`record.sign.${sign}`) })),
    ],
  }),
  show: ({ draft }) => recorded(draft.inversion)?.join(', ') ?? '',
  read(text) {
    const ticked = text.split(',').map((one) => one.trim())
    const seen = inversionSigns.filter((sign) => ticked.includes(sign))
    return seen.length === 0 && !isNone(ticked.join(' '))
      ? bad(say('logging.sign-needed', { typed: text }))
      : good({ inversion: [...seen] })
  },
}
