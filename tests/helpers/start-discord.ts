// Loaded with the first interaction otherwise, which takes a moment where modules are read one by one.
import '#src/messengers/discord/answer-on.ts'
import {
  type Answering,
  type Discord,
  type DiscordOptions,
  startDiscord as startWith,
} from '#src/messengers/discord/start.ts'

export type EagerOptions = Omit<DiscordOptions, 'answering'> &
  Answering & {
    /** What happens while that which answers is loaded. */
    readonly loading?: () => void
  }

/** Discord with what answers there from the start. */
export function startDiscord(options: EagerOptions): Promise<Discord> {
  const answering = async () => {
    options.loading?.()
    return options
  }
  return startWith({ ...options, answering })
}
