/**
 * Words of days and times in English and US Spanish, without accents and in small letters. Both languages are
 * always read: crews mix them in one line.
 */

const MONTHS: readonly (readonly string[])[] = [
  ['january', 'jan', 'enero', 'ene'],
  ['february', 'feb', 'febrero'],
  ['march', 'mar', 'marzo'],
  ['april', 'apr', 'abril', 'abr'],
  ['may', 'mayo'],
  ['june', 'jun', 'junio'],
  ['july', 'jul', 'julio'],
  ['august', 'aug', 'agosto', 'ago'],
  ['september', 'sept', 'sep', 'septiembre', 'setiembre', 'set'],
  ['october', 'oct', 'octubre'],
  ['november', 'nov', 'noviembre'],
  ['december', 'dec', 'diciembre', 'dic'],
]

const WEEKDAYS: readonly (readonly string[])[] = [
  ['sunday', 'sun', 'domingo', 'dom'],
  ['monday', 'mon', 'lunes', 'lun'],
  ['tuesday', 'tues', 'tue', 'martes', 'mar'],
  ['wednesday', 'wed', 'miercoles', 'mie'],
  ['thursday', 'thurs', 'thur', 'thu', 'jueves', 'jue'],
  ['friday', 'fri', 'viernes', 'vie'],
  ['saturday', 'sat', 'sabado', 'sab'],
]

const COUNTS: readonly (readonly string[])[] = [
  ['a', 'an', 'one', 'un', 'una', 'uno'],
  ['two', 'dos'],
  ['three', 'tres'],
  ['four', 'cuatro'],
  ['five', 'cinco'],
  ['six', 'seis'],
  ['seven', 'siete'],
  ['eight', 'ocho'],
  ['nine', 'nueve'],
  ['ten', 'diez'],
  ['eleven', 'once'],
  ['twelve', 'doce'],
]

/** What comes after a day's name or a time and says nothing by itself. */
export const FILLERS = /\b(?:at|on|the|of|el|la|las|los|a|al|de|del|en|por|around|about|como)\b|[,;.]/g

/** One of these words, longest first, for a regular expression. */
function anyOf(words: readonly (readonly string[])[]): string {
  return words
    .flat()
    .sort((a, b) => b.length - a.length)
    .join('|')
}

export const MONTH = `(${anyOf(MONTHS)})\\.?`
export const WEEKDAY = `(${anyOf(WEEKDAYS)})\\b\\.?`
export const COUNT = `(\\d{1,3}|${anyOf(COUNTS)})`

/** 1 to 12. */
export function monthOf(word: string): number {
  return MONTHS.findIndex((names) => names.includes(word)) + 1
}

/** 0 for Sunday, as dates count them. */
export function weekdayOf(word: string): number {
  return WEEKDAYS.findIndex((names) => names.includes(word))
}

export function countOf(word: string): number {
  return /^\d/.test(word) ? Number(word) : COUNTS.findIndex((names) => names.includes(word)) + 1
}
