/** The part of a logger that is used here; pino has it. */
export interface Log {
  debug(about: object, message: string): void
  info(about: object, message: string): void
  warn(about: object, message: string): void
  error(about: object, message: string): void
}
