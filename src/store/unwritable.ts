/** Codes with which the engines say that nothing can be written: full, read-only, locked for too long. */
const CODES = new Set([
  'SQLITE_FULL',
  'SQLITE_READONLY',
  'SQLITE_CANTOPEN',
  'SQLITE_BUSY',
  '25006', // PostgreSQL: read-only transaction
  '53100', // PostgreSQL: disk full
  '55P03', // PostgreSQL: lock not available
])

/** True when the store can perhaps be read, but not written; a cause counts as much as the error itself. */
export function isUnwritable(error: unknown): boolean {
  if (!(error instanceof Error)) return false
  const code = 'code' in error ? error.code : undefined
  if (typeof code !== 'string') return isUnwritable(error.cause)
  return CODES.has(code) || code.startsWith('SQLITE_IOERR') || code.startsWith('SQLITE_READONLY')
}
