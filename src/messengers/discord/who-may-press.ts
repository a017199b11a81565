import type { Choice } from '#src/conversation/reply.ts'
import type { Answered } from '#src/desk/desk.ts'
import type { Presented } from '#src/messengers/present.ts'
import { oneLine } from './escape.ts'

type Say = (id: string, parameters: Readonly<Record<string, string | number>>) => string

/** On a shared answer: whose the buttons are, and which ones others may press. */
export function pressLines(
  answered: Answered,
  presented: Presented,
  owner: string | null,
  say: Say,
): string[] {
  const labels = (who: NonNullable<Choice['who']>) =>
    presented.choices
      .filter((_, at) => (answered.reply.choices[at]?.who ?? 'owner') === who)
      .map((choice) => oneLine(choice.label))
      .join(', ')
  const owned = labels('owner') !== '' || answered.reply.form !== null
  const forLead = labels('lead')
  const forCrew = labels('crew')
  return [
    ...(owned && owner !== null ? [say('discord.press-owner', { name: owner })] : []),
    ...(forLead === '' ? [] : [say('discord.press-lead', { labels: forLead })]),
    ...(forCrew === '' ? [] : [say('discord.press-crew', { labels: forCrew })]),
  ]
}
