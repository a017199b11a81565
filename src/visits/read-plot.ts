import type { StoredFile } from '#src/conversation/ask.ts'
import { filesOf, type Problems, textOf } from '#src/conversation/fields.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { FieldValue } from '#src/desk/command.ts'
import { decimalText } from '#src/quantity/big.ts'
import { PlotBody } from '#src/store/plots.ts'
import { readPercent } from './read-percents.ts'

export interface ReadPlot {
  readonly flag: string
  readonly body: PlotBody
  readonly photos: readonly StoredFile[]
}

const LONGEST_FLAG = 20

/** What stands in the form of a plot; or every problem at once. @param taken flags of this application */
export function readPlot(
  fields: Readonly<Record<string, FieldValue>>,
  taken: readonly string[],
): { readonly ok: true; readonly value: ReadPlot } | { readonly ok: false; readonly problems: Problems } {
  const problems: Text[] = []
  const flag = textOf(fields, 'flag')
  if (flag === '') problems.push(say('visits.flag-missing'))
  if (flag.length > LONGEST_FLAG) problems.push(say('visits.flag-long', { most: LONGEST_FLAG }))
  if (taken.some((other) => other.toLowerCase() === flag.toLowerCase()))
    problems.push(say('visits.flag-taken', { flag }))
  const cover = textOf(fields, 'cover')
  const coverPercent = cover === '' ? null : readPercent(cover)
  if (cover !== '' && coverPercent === null) problems.push(say('visits.percent-wrong', { typed: cover }))
  if (problems.length > 0) return { ok: false, problems }
  const where = textOf(fields, 'where')
  const body = PlotBody.parse({ where, pin: readPin(where), size: textOf(fields, 'size'), coverPercent })
  const photos = filesOf(fields, 'photo').filter(({ type }) => type.startsWith('image/'))
  return { ok: true, value: { flag, body, photos } }
}

const PIN = /^\s*(-?\d{1,2}\.\d{3,10})\s*[,;\s]\s*(-?\d{1,3}\.\d{3,10})\s*$/

/** `35.91320, -78.90120` as a map gives it; null for plain words. */
export function readPin(text: string): PlotBody['pin'] {
  const found = PIN.exec(text)
  const [latitude, longitude] = [found?.[1], found?.[2]]
  if (latitude === undefined || longitude === undefined) return null
  return Math.abs(Number(latitude)) <= 90 && Math.abs(Number(longitude)) <= 180
    ? { latitude: decimalText(latitude), longitude: decimalText(longitude) }
    : null
}
