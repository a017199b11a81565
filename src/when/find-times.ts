import { type Clock, minutesOf } from './clock.ts'
import type { Reading } from './reading.ts'
import { COUNT, countOf } from './words.ts'

const HALF = '(?: ?(a|p)\\.? ?m\\.?| ?(?<=\\d)(a|p))'
const AT = '(?:at|a las?|las?)'

/** Takes every time of day out of the text. Days are gone from it by then. */
export function findTimes(reading: Reading): void {
  reading.take('(?:at |a (?:la )?)?(?:midnight|medianoche|media noche)', () =>
    reading.trouble({ kind: 'midnight', text: reading.text }),
  )
  reading.take('(?:at |al? )?(?:noon|midday|mediodia|medio dia)', () => reading.minutes.add(12 * 60))
  findSpelled(reading)
  findTwelveHours(reading)
  findWritten(reading)
  findPlainHours(reading)
}

function add(reading: Reading, clock: Omit<Clock, 'part'>): void {
  const read = minutesOf({ ...clock, part: reading.part })
  if (read.ok) reading.minutes.add(read.value)
  else if (read.error === 'ambiguous-time')
    reading.trouble({ kind: 'ambiguous-time', text: reading.text, clock: written(clock) })
  else reading.trouble({ kind: read.error, text: reading.text })
}

function written({ hour, minute }: Omit<Clock, 'part'>): string {
  return `${hour}:${String(minute).padStart(2, '0')}`
}

function halfOf(letter: string | undefined): Pick<Clock, 'half'> {
  if (letter === undefined) return {}
  return { half: letter === 'a' ? 'am' : 'pm' }
}

/** `half past 3`, `quarter to three`, `3 y media`, `un cuarto para las 3`, `3 menos cuarto`. */
function findSpelled(reading: Reading): void {
  const half = `(?:${HALF})?`
  reading.take(
    `(half|quarter) (past|after|to|of|till) ${COUNT}${half}`,
    ([share, side = '', hour = '', dotted, bare]) => {
      const minutes = share === 'half' ? 30 : 15
      const isBefore = !/past|after/.test(side)
      addShifted(reading, countOf(hour), isBefore ? -minutes : minutes, dotted ?? bare)
    },
  )
  reading.take(`(?:un )?cuarto para ${AT} ${COUNT}${half}`, ([hour = '', dotted, bare]) =>
    addShifted(reading, countOf(hour), -15, dotted ?? bare),
  )
  reading.take(
    `${COUNT} (y|menos) (media|cuarto|\\d{1,2})${half}`,
    ([hour = '', side, share = '', dotted, bare]) => {
      const minutes = share === 'media' ? 30 : share === 'cuarto' ? 15 : Number(share)
      addShifted(reading, countOf(hour), side === 'y' ? minutes : -minutes, dotted ?? bare)
    },
  )
}

/** `quarter to 1` is 12:45; the half of the day is that of the time meant. */
function addShifted(reading: Reading, hour: number, minutes: number, half: string | undefined): void {
  const earlier = minutes < 0
  const shifted = earlier ? (hour === 1 ? 12 : hour - 1) : hour
  add(reading, { hour: shifted, minute: earlier ? 60 + minutes : minutes, ...halfOf(half) })
}

/** `3 pm`, `3:15 p.m.`, `7a`, `12 m.` is left alone. */
function findTwelveHours(reading: Reading): void {
  reading.take(
    new RegExp(`(?<![\\d:])(\\d{1,2})(?:[:.h](\\d{2}))?(?::\\d{2})?${HALF}(?!\\w)`, 'g'),
    ([hour, minute, dotted, bare]) =>
      add(reading, { hour: Number(hour), minute: Number(minute ?? 0), ...halfOf(dotted ?? bare) }),
  )
}

const HOURS = '(?: ?(?:hours|hrs|hr|horas|hora|h)\\b)?'

/** `7:30`, `07:30`, `15:15`, `7h30`, `0730`, `1530 hrs`. */
function findWritten(reading: Reading): void {
  reading.take(
    new RegExp(`(?<![\\d:.])(\\d{1,2})[:h](\\d{2})(?::\\d{2})?(?:\\.\\d+)?${HOURS}(?![\\w:])`, 'g'),
    ([hour = '', minute]) =>
      add(reading, { hour: Number(hour), minute: Number(minute), hasZero: hour.startsWith('0') }),
  )
  reading.take(new RegExp(`(?<![\\d:.])([012]\\d)([0-5]\\d)${HOURS}(?![\\w:])`, 'g'), ([hour, minute]) =>
    add(reading, { hour: Number(hour), minute: Number(minute), hasZero: true }),
  )
}

/** `at 3`, `a las tres`, `a las 7.30`, `15 horas`; with a part of the day named, the number alone. */
function findPlainHours(reading: Reading): void {
  reading.take(
    `${AT} ${COUNT}(?:\\.(\\d{2}))?(?: ?(?:horas|hrs|h|o'?clock|en punto))?`,
    ([hour = '', minute]) => add(reading, { hour: countOf(hour), minute: Number(minute ?? 0) }),
  )
  reading.take(`(\\d{1,2}) ?(?:hours|hrs|horas|o'?clock|en punto)`, ([hour]) =>
    add(reading, { hour: Number(hour), minute: 0 }),
  )
  if (reading.part !== undefined)
    reading.take('(\\d{1,2})', ([hour]) => add(reading, { hour: Number(hour), minute: 0 }))
}
