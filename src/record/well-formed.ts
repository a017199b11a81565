/** No NUL and no half of a surrogate pair: such text changes on its way through a database, and so would its hash. */
export function isWellFormed(text: string): boolean {
  return text.isWellFormed() && !text.includes('\0')
}
