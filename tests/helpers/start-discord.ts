import {
  type Answering,
  type Discord,
  type DiscordOptions,
  startDiscord as startWith,
} from '#src/messengers/discord/start.ts'

export type EagerOptions = Omit<DiscordOptions, 'answering'> & Answering

/** Discord with what answers there from the start. */
export function startDiscord(options: EagerOptions): Promise<Discord> {
  return startWith({ ...options, answering: async () => options })
}
