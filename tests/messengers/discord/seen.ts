import type { APIMessage } from 'discord.js'

type Component = { readonly [key: string]: unknown }

function* walk(value: unknown): Generator<Component> {
  if (Array.isArray(value)) for (const one of value) yield* walk(one)
  else if (typeof value === 'object' && value !== null) {
    yield value as Component
    for (const key of ['components', 'accessory', 'component']) yield* walk((value as Component)[key])
  }
}

const all = (message: Pick<APIMessage, 'components'> | { components?: unknown }) => [
  ...walk(message.components ?? []),
]

/** All text of a message, as it was sent. */
export function textOf(message: { components?: unknown }): string {
  return all(message)
    .flatMap((one) => (typeof one.content === 'string' ? [one.content] : []))
    .join('\n')
}

export interface Button {
  readonly label: string
  readonly customId: string
  readonly disabled: boolean
}

/** Buttons in the order in which they stand. */
export function buttonsOf(message: { components?: unknown }): Button[] {
  return all(message)
    .filter((one) => one.type === 2)
    .map((one) => ({
      label: String(one.label),
      customId: String(one.custom_id),
      disabled: one.disabled === true,
    }))
}

export function buttonIn(message: { components?: unknown }, label: string): string {
  const found = buttonsOf(message).find((one) => one.label === label)
  if (found === undefined)
    throw new Error(`No button "${label}" among ${buttonsOf(message).map((one) => one.label)}`)
  return found.customId
}

export function menuOf(message: { components?: unknown }): {
  customId: string
  values: string[]
  labels: string[]
} {
  const found = all(message).find((one) => one.type === 3)
  if (found === undefined) throw new Error('No menu')
  const options = found.options as { value: string; label: string }[]
  return {
    customId: String(found.custom_id),
    values: options.map((one) => one.value),
    labels: options.map((one) => one.label),
  }
}

export const isPrivate = (message: { flags?: unknown }) => (Number(message.flags ?? 0) & 64) !== 0
