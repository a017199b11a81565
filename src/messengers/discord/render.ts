import {
  type APIAllowedMentions,
  type APIComponentInContainer,
  type APIMessageTopLevelComponent,
  ComponentType,
  MessageFlags,
} from 'discord.js'
import type { Answered } from '#src/desk/desk.ts'
import { type Presented, present } from '#src/messengers/present.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { type ButtonChoice, button, layChoices, rowsOf } from './choices.ts'
import { type Marks, writeHead } from './custom-id.ts'
import { flattenTyped } from './escape.ts'
import { showFiles } from './file-components.ts'
import { languageFor, otherLanguage, sayPlainly } from './language.ts'
import { MESSAGE } from './limits.ts'
import type { ReadyFile } from './pictures.ts'
import { layTexts } from './texts.ts'
import { pressLines } from './who-may-press.ts'

/** A message of components: text at any size, small print and buttons in one frame, which embeds cannot have. */
export interface MessageBody {
  readonly flags: number
  readonly components: APIMessageTopLevelComponent[]
  readonly allowed_mentions: APIAllowedMentions
  readonly attachments?: readonly {
    readonly id: string
    readonly filename: string
    readonly description: string
  }[]
}

/** Nobody is ever called by what stands in an answer. */
export const NO_MENTIONS: APIAllowedMentions = { parse: [] }

export interface RenderOptions {
  /** Seen by the whole channel: in the crew's language, saying whose its buttons are. */
  readonly shared: boolean
  /** Over the answer's own choice of language, for reading it once more in another one. */
  readonly locale?: string
  /** Server id for `custom_id`, in direct messages only. */
  readonly guild?: string | null
  readonly slow?: boolean
  /** Whom the answer is for, as others see them. */
  readonly owner?: string | null
  /** Without buttons: a second copy, or a reading in another language. */
  readonly quiet?: boolean
  readonly files?: FilesShown
  /** Characters of text, in one component, that the caller will add. */
  readonly spare?: number
}

/** Files are drawn after the first response: they are said to be coming, then shown, or named as missing. */
export type FilesShown =
  | { readonly kind: 'coming' }
  | { readonly kind: 'ready'; readonly files: readonly ReadyFile[]; readonly missing: readonly string[] }

/** An answer as a message. Whatever it holds, the message keeps every limit of the platform. */
export function renderMessage(words: Catalogue, answered: Answered, options: RenderOptions): MessageBody {
  const locale = options.locale ?? languageFor(answered, options.shared)
  const presented = present(words, answered, { locale, escape: flattenTyped })
  const say = (id: string, parameters: Readonly<Record<string, string | number>> = {}) =>
    sayPlainly(words, locale, id, parameters)
  const ready = options.files?.kind === 'ready' ? options.files : { files: [], missing: [] }
  const files = showFiles(ready.files)
  const choices = options.quiet
    ? []
    : layAnswerChoices(answered, presented, options, say('discord.choose'), files)
  const texts = layTexts(presented, {
    room: MESSAGE.text - textIn(choices) - (options.spare ?? 0),
    facts: namedFacts(words, locale, presented),
    notes: [
      ...(options.files?.kind === 'coming' && presented.files.length > 0
        ? [say('discord.files-coming')]
        : []),
      ...ready.missing.map((name) => say('discord.file-missing', { name })),
      ...(options.shared && !options.quiet
        ? pressLines(answered, presented, options.owner ?? null, say)
        : []),
    ],
    more: say('discord.more'),
  })
  const more = options.quiet ? [] : moreButtons(words, answered, presented, options, texts.isCut)
  return {
    flags: MessageFlags.IsComponentsV2 | (options.shared ? 0 : MessageFlags.Ephemeral),
    components: [
      {
        type: ComponentType.Container,
        components: [...texts.main, ...files, ...texts.safety, ...texts.small],
      },
      ...choices,
      ...rowsOf(more),
    ],
    allowed_mentions: NO_MENTIONS,
    ...(options.files?.kind === 'ready' ? { attachments: attachmentsOf(ready.files) } : {}),
  }
}

/** Frame, texts, separators, the last row of buttons and a mention: the most that stands around files and choices. */
const FRAME_COMPONENTS = 13

function layAnswerChoices(
  answered: Answered,
  presented: Presented,
  options: RenderOptions,
  placeholder: string,
  files: readonly APIComponentInContainer[],
): APIComponentInContainer[] {
  if (answered.turnId === null) return []
  const choices = presented.choices.map((choice, at): ButtonChoice => {
    return { ...choice, repeat: answered.reply.choices[at]?.repeat ?? false }
  })
  return layChoices(choices, {
    turnId: answered.turnId,
    marks: marksOf(answered, options),
    guild: options.guild ?? null,
    placeholder,
    room: MESSAGE.components - FRAME_COMPONENTS - files.length,
  })
}

function marksOf(answered: Answered, options: RenderOptions): Marks {
  return { slow: options.slow ?? false, question: answered.reply.outcome === 'question' }
}

/** The form's button, all of a long answer or its working, and the answer in the asker's language. */
function moreButtons(
  words: Catalogue,
  answered: Answered,
  presented: Presented,
  options: RenderOptions,
  isCut: boolean,
) {
  const { turnId } = answered
  if (turnId === null) return []
  const guild = options.guild ?? null
  const locale = options.locale ?? languageFor(answered, options.shared)
  const { form } = presented
  const other = options.shared && guild === null ? otherLanguage(words, answered) : null
  const working = isCut
    ? 'discord.show-all'
    : answered.reply.working.length > 0
      ? 'common.show-working'
      : null
  return [
    ...(form === null
      ? []
      : [button(form.open, { head: form.token, marks: marksOf(answered, options), guild }, 1)]),
    ...(working === null
      ? []
      : [
          button(sayPlainly(words, locale, working), {
            head: writeHead({ kind: 'working', turnId }),
            marks: {},
            guild,
          }),
        ]),
    ...(other === null
      ? []
      : [
          button(sayPlainly(words, other, 'discord.this-language'), {
            head: writeHead({ kind: 'language', turnId, language: other }),
            marks: {},
            guild,
          }),
        ]),
  ]
}

/** Figures that have a name for people and do not stand in the sentences already. */
function namedFacts(words: Catalogue, locale: string, presented: Presented): string[] {
  const said = [presented.title, ...presented.lines].join('\n')
  return presented.facts.flatMap((fact) => {
    const name = words.find(locale, `fact.${fact.name}`)
    return name === null || said.includes(fact.text) ? [] : [`${name.say({}, {})}: ${fact.text}`]
  })
}

/** What text displays inside choices cost. */
function textIn(components: readonly APIComponentInContainer[]): number {
  return components
    .flatMap((one) => (one.type === ComponentType.Section ? one.components : []))
    .reduce((sum, text) => sum + costAsSent(text.content), 0)
}

const costAsSent = (content: string) =>
  Math.max(content.length, Math.ceil((Buffer.byteLength(content) * MESSAGE.text) / MESSAGE.textBytes))

function attachmentsOf(files: readonly ReadyFile[]) {
  return files.map((file, at) => ({ id: String(at), filename: file.name, description: file.alt }))
}
