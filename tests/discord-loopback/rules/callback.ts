import { InteractionResponseType, InteractionType, MessageFlags } from 'discord-api-types/v10'
import { type Check, isObject, type Json, list, maybe, number, shape, text } from './check.ts'
import { Findings } from './findings.ts'
import { checkMessage, type MessageContext } from './message.ts'
import { checkModal } from './modal.ts'

const { ChannelMessageWithSource, DeferredChannelMessageWithSource, DeferredMessageUpdate, UpdateMessage } =
  InteractionResponseType
const { ApplicationCommandAutocompleteResult, Modal, LaunchActivity } = InteractionResponseType

/** What the rules need to know of the interaction that is answered. */
export interface Answered {
  type: InteractionType
  /** The kind of the focused option, for autocomplete. */
  focusedType?: number | undefined
  /** A component of a message, or a modal opened from one: only these may update that message. */
  hasMessage: boolean
  message: Pick<MessageContext, 'fileNames' | 'before'>
}

/** Discord developer docs, interactions/receiving-and-responding, "Interaction Callback Type". */
function allowedTypes({ type, hasMessage }: Answered): readonly number[] {
  const updates = hasMessage ? [DeferredMessageUpdate, UpdateMessage] : []
  switch (type) {
    case InteractionType.ApplicationCommandAutocomplete:
      return [ApplicationCommandAutocompleteResult]
    case InteractionType.ModalSubmit:
      return [ChannelMessageWithSource, DeferredChannelMessageWithSource, ...updates, LaunchActivity]
    default:
      return [ChannelMessageWithSource, DeferredChannelMessageWithSource, ...updates, Modal, LaunchActivity]
  }
}

const TEXT_OPTION = 3
const suggestion = (type: number | undefined): Check =>
  shape({
    name: text(1, 100),
    name_localizations: () => {},
    value:
      type === undefined || type === TEXT_OPTION ? text(1, 100) : number(-(2 ** 53), 2 ** 53, type === 4),
  })

/** A deferred message takes the ephemeral flag and nothing else. */
const deferred: Check = (value, path, findings) => {
  if (!isObject(value)) return
  for (const key of Object.keys(value))
    if (key !== 'flags') findings.warn([...path, key], 'UNKNOWN_FIELD', `A deferral ignores "${key}"`)
  if ((Number(value.flags ?? 0) & ~MessageFlags.Ephemeral) !== 0)
    findings.breach(
      [...path, 'flags'],
      'MESSAGE_FLAGS_INVALID',
      'A deferral may set only the EPHEMERAL flag.',
    )
}

function checkData(body: Json, findings: Findings, answered: Answered) {
  const path = ['data']
  switch (body.type) {
    case ChannelMessageWithSource:
      return checkMessage(body.data ?? {}, path, findings, {
        use: 'reply',
        fileNames: answered.message.fileNames,
      })
    case UpdateMessage:
      return body.data === undefined
        ? undefined
        : checkMessage(body.data, path, findings, { use: 'edit', ...answered.message })
    case DeferredChannelMessageWithSource:
      return maybe(deferred)(body.data, path, findings)
    case ApplicationCommandAutocompleteResult:
      return shape({ choices: list(suggestion(answered.focusedType), 0, 25) })(body.data, path, findings)
    case Modal:
      return checkModal(body.data, path, findings)
  }
}

/** A whole callback body: its type against the interaction's, then its data by type. */
export function checkCallback(body: unknown, answered: Answered): Findings {
  const findings = new Findings()
  if (!isObject(body)) {
    findings.breach([], 'MODEL_TYPE_CONVERT', 'Only dictionaries may be used in a ModelType')
    return findings
  }
  const allowed = allowedTypes(answered)
  if (!allowed.includes(Number(body.type)))
    findings.breach(['type'], 'BASE_TYPE_CHOICES', `Value must be one of {${allowed.join(', ')}}.`)
  else {
    shape({ type: () => {}, data: () => {} })(body, [], findings)
    checkData(body, findings, answered)
  }
  return findings
}
