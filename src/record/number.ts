/** `R12`: a record as the chat, papers, facts and the chain call it. */
export function recordName(number: number): string {
  return `R${number}`
}

/** `R12-A2`: the second amendment of a record. */
export function amendmentName(number: number, place: number): string {
  return `${recordName(number)}-A${place}`
}

/** The number in `R12`, `r-12`, `R 12`, `#12` or `12`; null for anything else. */
export function readRecordName(text: string): number | null {
  const digits = /^(?:r\s*-?\s*)?#?\s*0*(\d{1,9})$/i.exec(text.trim())?.[1]
  return digits === undefined || digits === '0' ? null : Number(digits)
}
