import { DiscordAPIError, HTTPError, RateLimitError } from 'discord.js'

/** What a failed call means for us, whatever its code. */
export type Trouble =
  /** The interaction is unknown by now: more than three seconds have passed. */
  | 'late'
  /** Somebody answered this interaction already: a dispatch that came twice. */
  | 'answered'
  /** The message, channel or token is gone. */
  | 'gone'
  | 'no-access'
  /** This person takes no direct messages. */
  | 'no-direct-message'
  | 'token-refused'
  /** Against the platform's rules: our own mistake. */
  | 'refused'
  /** May work later: too fast, out of order, or not reached. */
  | 'later'

/** Codes: Discord developer docs, topics/opcodes-and-status-codes. */
const BY_CODE: Readonly<Record<string, Trouble>> = {
  10062: 'late',
  40060: 'answered',
  10003: 'gone',
  10004: 'gone',
  10008: 'gone',
  10013: 'gone',
  10015: 'gone',
  50027: 'gone',
  50001: 'no-access',
  50013: 'no-access',
  50007: 'no-direct-message',
  50278: 'no-direct-message',
  40003: 'later',
}

/** Sorts what a call threw. Anything that is not the platform's word counts as "not reached". */
export function troubleOf(error: unknown): Trouble {
  if (error instanceof DiscordAPIError) {
    const known = BY_CODE[String(error.code)]
    if (known !== undefined) return known
    if (error.status === 401) return 'token-refused'
    return error.status === 429 || error.status >= 500 ? 'later' : 'refused'
  }
  if (error instanceof RateLimitError) return 'later'
  if (error instanceof HTTPError) return error.status >= 500 || error.status === 429 ? 'later' : 'refused'
  if (error instanceof Error && /Expected token to be set/.test(error.message)) return 'token-refused'
  return 'later'
}

/** The person is not in the server, the server is not known, or the bot is no longer in it (10007, 10013, 10004, 50001). */
export function isUnknownMember(error: unknown): boolean {
  return error instanceof DiscordAPIError && [10004, 10007, 10013, 50001].includes(Number(error.code))
}

/** What of an error may be logged: the platform's tree of complaints, without bodies, tokens and addresses. */
export function describeError(error: unknown): Readonly<Record<string, unknown>> {
  if (error instanceof DiscordAPIError)
    return {
      code: error.code,
      status: error.status,
      method: error.method,
      message: error.message,
      complaints: 'errors' in error.rawError ? error.rawError.errors : undefined,
    }
  if (error instanceof Error) return { name: error.name, message: error.message, stack: error.stack }
  return { message: String(error) }
}
