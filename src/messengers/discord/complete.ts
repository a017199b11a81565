import { InteractionResponseType } from 'discord.js'
import type { Suggestion } from '#src/conversation/ask.ts'
import { cutText } from './cut.ts'
import { oneLine } from './escape.ts'
import { SUGGESTIONS } from './limits.ts'
import { describeError } from './platform-error.ts'
import type { Incoming, Wish } from './read.ts'
import type { Responder } from './responder.ts'
import type { Rim } from './rim.ts'

/** Answers while somebody types: from memory, writing nothing; in trouble with an empty list. */
export async function complete(
  rim: Rim,
  responder: Responder,
  incoming: Incoming,
  { command, option, typed, options }: Extract<Wish, { kind: 'suggest' }>,
): Promise<void> {
  const choices = await suggestions(rim, incoming, { command, option, typed, options })
  await responder.first({
    type: InteractionResponseType.ApplicationCommandAutocompleteResult,
    data: { choices: fitSuggestions(choices) },
  })
}

async function suggestions(
  rim: Rim,
  incoming: Incoming,
  asked: Omit<Extract<Wish, { kind: 'suggest' }>, 'kind'>,
): Promise<readonly Suggestion[]> {
  try {
    const whose = await rim.crews.find(incoming)
    return whose.kind === 'known' ? await rim.suggest({ by: whose.by, ...asked }) : []
  } catch (error) {
    rim.log.error({ interaction: incoming.id, error: describeError(error) }, 'no suggestions')
    return []
  }
}

/** What the platform takes. A value is sent back as it stands, so one that is too long is left out, not cut. */
export function fitSuggestions(found: readonly Suggestion[]): { name: string; value: string }[] {
  return found
    .filter(({ value }) => value.trim() !== '' && value.length <= SUGGESTIONS.value)
    .slice(0, SUGGESTIONS.count)
    .map(({ name, value }) => ({ name: cutText(oneLine(name), SUGGESTIONS.name) || value, value }))
}
