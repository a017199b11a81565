import { MONTH, monthOf } from '#src/when/words.ts'

const YEAR = '(?:,?\\s+(?:de\\s+|del\\s+)?(\\d{4})(?=[\\s,:]))?'
const DAY_FIRST = new RegExp(`^\\s*(\\d{1,2})\\s+(?:de\\s+)?${MONTH}${YEAR}(?=[\\s,:])`, 'i')
const MONTH_FIRST = new RegExp(`^\\s*${MONTH}\\s+(\\d{1,2})${YEAR}(?=[\\s,:])`, 'i')

/** Lines that begin with a month's name, in English or Spanish, with the day in figures: `1 de abril 74 52` is `4/1 74 52`. */
export function monthsAsFigures(text: string): string {
  const said = (month: string, day: string, year: string | undefined) =>
    `${monthOf(month.toLowerCase())}/${day}${year === undefined ? '' : `/${year}`}`
  return text
    .split(/(?<=[\n;])/)
    .map((line) =>
      line
        .replace(DAY_FIRST, (_, day: string, month: string, year?: string) => said(month, day, year))
        .replace(MONTH_FIRST, (_, month: string, day: string, year?: string) => said(month, day, year)),
    )
    .join('')
}
