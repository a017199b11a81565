import type { DiscordStandIn } from '#tests/discord-loopback/index.ts'
import { buttonIn, buttonsOf } from '#tests/messengers/discord/seen.ts'
import { careful } from '../commands/fill-log.ts'

export type Message = Awaited<ReturnType<ReturnType<DiscordStandIn['slash']>['message']>>

const USER = 'demo.crew'

/** A member of the crew presses the button that says so. */
export const press = (platform: DiscordStandIn, message: Message, label: string) =>
  platform.press({ user: USER, message, customId: buttonIn(message, label) })

/** Presses one button after another, each in the message that came back. */
export async function pressOn(platform: DiscordStandIn, first: Message, ...labels: string[]) {
  let message = first
  for (const label of labels) message = await press(platform, message, label).message()
  return message
}

/** Opens the form behind a button, types, and sends it; ids of fields as they stand in the form. */
export async function submit(
  platform: DiscordStandIn,
  message: Message,
  fields: Readonly<Record<string, string | readonly string[]>>,
  label = 'Fill it in',
): Promise<Message> {
  const opened = press(platform, message, label)
  await opened.modal()
  return platform.submitModal({ from: opened, fields: fields as never }).message()
}

/** Opens each short form by its button, types what a careful person types, and sends it, until none is left. */
export async function fillForms(
  platform: DiscordStandIn,
  first: Message,
  own: Readonly<Record<string, string>> = {},
  open = 'Fill it in',
): Promise<Message> {
  let message = first
  while (buttonsOf(message).some(({ label }) => label === open)) {
    const opened = press(platform, message, open)
    const modal = (await opened.modal()) as unknown as { components: ModalRow[] }
    const fields = fieldsOf(modal.components, { ...careful, ...own })
    message = await platform.submitModal({ from: opened, fields: fields as never }).message()
  }
  return message
}

interface ModalRow {
  readonly component?: {
    readonly custom_id: string
    readonly type: number
    readonly options?: readonly { readonly value: string }[]
  }
}

const TEXT_INPUT = 4

/** Values by the ids that stand in the form: text as text, a list as the values that are ticked. */
function fieldsOf(
  rows: readonly ModalRow[],
  typed: Readonly<Record<string, string>>,
): Record<string, string | string[]> {
  return Object.fromEntries(
    rows.flatMap(({ component }) => {
      if (component === undefined) return []
      const name = component.custom_id.replace(/^[a-z]+\./, '')
      const value = typed[name] ?? ''
      const offered = component.options?.map((option) => option.value) ?? []
      const ticked = value.split(', ').filter((one) => offered.includes(one))
      return [[component.custom_id, component.type === TEXT_INPUT ? value : ticked]]
    }),
  )
}
