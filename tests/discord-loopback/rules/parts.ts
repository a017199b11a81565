import { ButtonStyle, ComponentType } from 'discord-api-types/v10'
import {
  anything,
  type Check,
  choice,
  isObject,
  type Json,
  list,
  maybe,
  objectsOf,
  shape,
  snowflake,
  text,
  truth,
  whole,
} from './check.ts'
import type { Findings, Path } from './findings.ts'
import { url } from './urls.ts'

/** Counts and lengths of this file: Discord developer docs, components/reference. */
const INT32_MAX = 2 ** 31 - 1
export const typeAndId = { type: anything, id: maybe(whole(0, INT32_MAX)) }
export const customId = text(1, 100)

const IS_EMOJI = /^(\p{Extended_Pictographic}|\p{Regional_Indicator}|[0-9#*]\uFE0F?\u20E3)/u

/** A custom emoji by id, or one that is really an emoji. */
export const emoji: Check = (value, path, findings) => {
  shape({ id: maybe(snowflake), name: maybe(text(0, 100)), animated: maybe(truth) })(value, path, findings)
  if (!isObject(value) || value.id) return
  if (typeof value.name !== 'string' || !IS_EMOJI.test(value.name))
    findings.breach([...path, 'name'], 'COMPONENT_INVALID_EMOJI', 'Invalid emoji')
}

const buttonShape = shape({
  ...typeAndId,
  style: choice(1, 2, 3, 4, 5, 6),
  label: maybe(text(0, 80)),
  emoji: maybe(emoji),
  custom_id: maybe(customId),
  url: maybe(url(['http', 'https', 'discord'], 512)),
  sku_id: maybe(snowflake),
  disabled: maybe(truth),
})

const NEEDS: Record<number, 'custom_id' | 'url' | 'sku_id'> = {
  [ButtonStyle.Primary]: 'custom_id',
  [ButtonStyle.Secondary]: 'custom_id',
  [ButtonStyle.Success]: 'custom_id',
  [ButtonStyle.Danger]: 'custom_id',
  [ButtonStyle.Link]: 'url',
  [ButtonStyle.Premium]: 'sku_id',
}

/** Exactly the target that its style asks for, and something to read on it. */
export const button: Check = (value, path, findings) => {
  buttonShape(value, path, findings)
  if (!isObject(value)) return
  const needed = NEEDS[Number(value.style)]
  for (const key of ['custom_id', 'url', 'sku_id'] as const) {
    const given = value[key] !== undefined && value[key] !== null
    if (key === needed && !given)
      findings.breach([...path, key], 'BASE_TYPE_REQUIRED', 'This field is required')
    if (key !== needed && given)
      findings.breach(
        [...path, key],
        'BUTTON_COMPONENT_FIELD_NOT_ALLOWED',
        `A button of this style has no ${key}.`,
      )
  }
  if (needed !== 'sku_id' && !value.label && !value.emoji)
    findings.breach([...path, 'label'], 'BASE_TYPE_REQUIRED', 'A button needs a label or an emoji.')
}

const option = shape({
  label: text(1, 100),
  value: text(1, 100),
  description: maybe(text(0, 100)),
  emoji: maybe(emoji),
  default: maybe(truth),
})

/** What select menus of all kinds share. */
const selectFields = {
  ...typeAndId,
  custom_id: customId,
  placeholder: maybe(text(0, 150)),
  min_values: maybe(whole(0, 25)),
  max_values: maybe(whole(1, 25)),
  disabled: maybe(truth),
  required: maybe(truth),
}

const defaultValue = shape({ id: snowflake, type: choice('user', 'role', 'channel') })

/** min ≤ max ≤ what there is to choose from, values unlike, no more marked than may be chosen. */
export function checkChoosing(one: Json, path: Path, findings: Findings, fallbackMax = 1): void {
  const options = objectsOf(one.options)
  const min = Number(one.min_values ?? 1)
  const max = Number(one.max_values ?? fallbackMax)
  if (min > max)
    findings.breach(
      [...path, 'min_values'],
      'SELECT_MIN_ABOVE_MAX',
      `min_values ${min} is above max_values ${max}.`,
    )
  if (one.options === undefined) return
  for (const key of ['min_values', 'max_values'])
    if (options.length > 0 && Number(one[key] ?? 0) > options.length)
      findings.breach([...path, key], 'SELECT_MORE_THAN_OPTIONS', `${key} is above the number of options.`)
  const values = options.map((each) => each.value)
  values.forEach((value, index) => {
    if (values.indexOf(value) !== index)
      findings.breach(
        [...path, 'options', index, 'value'],
        'SELECT_COMPONENT_OPTION_VALUE_DUPLICATED',
        'The specified option value is already used',
      )
  })
  if (options.filter((each) => each.default === true).length > max)
    findings.breach(
      [...path, 'options'],
      'SELECT_TOO_MANY_DEFAULTS',
      'More options are default than may be chosen.',
    )
}

export const select: Check = (value, path, findings) => {
  if (!isObject(value)) return
  const fields: Record<string, Check> =
    value.type === ComponentType.StringSelect
      ? { ...selectFields, options: list(option, 1, 25) }
      : { ...selectFields, default_values: maybe(list(defaultValue, 0, 25)), channel_types: anything }
  shape(fields)(value, path, findings)
  checkChoosing(value, path, findings)
}

export const SELECT_TYPES: readonly number[] = [
  ComponentType.StringSelect,
  ComponentType.UserSelect,
  ComponentType.RoleSelect,
  ComponentType.MentionableSelect,
  ComponentType.ChannelSelect,
]

/** Every object with a `type` inside a component tree, parents before children, with its path. */
export function* walkComponents(value: unknown, path: Path): Generator<{ one: Json; path: Path }> {
  if (Array.isArray(value)) {
    for (const [index, each] of value.entries()) yield* walkComponents(each, [...path, index])
    return
  }
  if (!isObject(value) || typeof value.type !== 'number') return
  yield { one: value, path }
  for (const key of ['components', 'accessory', 'component'])
    if (value[key] !== undefined) yield* walkComponents(value[key], [...path, key])
}

/** `custom_id` (and `id` where given) may not stand twice in one message or modal. */
export function checkUniqueIds(value: unknown, path: Path, findings: Findings): void {
  const seen = { custom_id: new Set<unknown>(), id: new Set<unknown>() }
  for (const { one, path: at } of walkComponents(value, path)) {
    for (const key of ['custom_id', 'id'] as const) {
      if (one[key] === undefined || one[key] === 0) continue
      if (seen[key].has(one[key]))
        findings.breach(
          [...at, key],
          key === 'id' ? 'COMPONENT_ID_DUPLICATED' : 'COMPONENT_CUSTOM_ID_DUPLICATED',
          `Component ${key === 'id' ? 'id' : 'custom id'} cannot be duplicated`,
        )
      seen[key].add(one[key])
    }
  }
}
