import type { Bot } from '#src/bot.ts'
import { say } from '#src/conversation/text.ts'
import type { Command } from '#src/desk/command.ts'
import { type OptionSpec, optionsOf } from '#src/messengers/option-shapes.ts'
import { type InWords, inWordsOf } from './in-words.ts'
import type { Viewer } from './people.ts'
import type { PageCommand, PageOption } from './shapes.ts'

/** From this length on a text gets several lines to be typed on. */
const LONG_TEXT = 1000

/** The commands that a person may use, with their forms. */
export function commandsFor(bot: Bot, viewer: Viewer): PageCommand[] {
  const inWords = inWordsOf(bot.words, viewer.locale, viewer.crew.zone)
  return [...bot.registry.values()]
    .filter(({ may }) => may === 'crew' || viewer.person.leads)
    .map((command) => ({
      name: command.name,
      about: firstSaid(bot, inWords, [`command.${idOf(command)}`], command.name),
      options: optionsOf(command.options).map((option) => formOption(bot, inWords, command, option)),
    }))
}

const idOf = ({ name }: Command) => name.replaceAll(' ', '-')

function formOption(
  bot: Bot,
  inWords: InWords,
  command: Command,
  { name, required, shape }: OptionSpec,
): PageOption {
  const base = {
    name,
    label: firstSaid(bot, inWords, [`command.${idOf(command)}.${name}`, `option.${name}`], name),
    required,
    values: [],
    suggests: false,
    most: null,
  }
  switch (shape.kind) {
    case 'text': {
      const isLong = shape.most !== null && shape.most >= LONG_TEXT && !shape.suggests
      return {
        ...base,
        kind: isLong ? 'long-text' : 'text',
        suggests: shape.suggests,
        most: shape.most,
      }
    }
    case 'choice':
      return {
        ...base,
        kind: 'choice',
        values: shape.values.map((value) => ({
          value,
          label: firstSaid(bot, inWords, [`option-choice.${name}.${value}`], value),
        })),
      }
    case 'integer':
    case 'number':
      return { ...base, kind: 'number' }
    case 'role':
      return { ...base, kind: 'text' }
    default:
      return { ...base, kind: shape.kind }
  }
}

/** The first of these sentences that there is, else a name. */
function firstSaid(bot: Bot, inWords: InWords, ids: readonly string[], name: string): string {
  const found = ids.find((id) => bot.words.source('en', id) !== null)
  return found === undefined ? name : inWords(say(found))
}
