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

/** True when the store can perhaps be read, but not written. */
export function isUnwritable(error: unknown): boolean {
  const code = (error as { code?: unknown } | null)?.code
  if (typeof code !== 'string') return false
  return CODES.has(code) || code.startsWith('SQLITE_IOERR') || code.startsWith('SQLITE_READONLY')
}
