import { ComponentType } from 'discord-api-types/v10'
import {
  type Check,
  choice,
  isObject,
  type Json,
  list,
  maybe,
  objectsOf,
  shape,
  text,
  truth,
  whole,
} from './check.ts'
import type { Findings, Path } from './findings.ts'
import { checkChoosing, checkUniqueIds, customId, SELECT_TYPES, select, typeAndId } from './parts.ts'

/** Discord developer docs, interactions/receiving-and-responding ("Modal") and components/reference. */
export const COMPONENTS_PER_MODAL = 5

export const FILE_TYPE = /^(image|video|audio|\.[A-Za-z0-9.]+)$/

const textInput: Check = (value, path, findings) => {
  shape({
    ...typeAndId,
    custom_id: customId,
    style: choice(1, 2),
    label: maybe(text(0, 45)),
    min_length: maybe(whole(0, 4000)),
    max_length: maybe(whole(1, 4000)),
    required: maybe(truth),
    value: maybe(text(0, 4000)),
    placeholder: maybe(text(0, 100)),
  })(value, path, findings)
  if (isObject(value) && Number(value.min_length ?? 0) > Number(value.max_length ?? 4000))
    findings.breach([...path, 'min_length'], 'TEXT_INPUT_MIN_ABOVE_MAX', 'min_length is above max_length.')
}

const groupOption = shape({
  value: text(1, 100),
  label: text(1, 100),
  description: maybe(text(0, 100)),
  default: maybe(truth),
})

const named = { ...typeAndId, custom_id: customId, required: maybe(truth) }
const counted = (most: number) => ({ min_values: maybe(whole(0, most)), max_values: maybe(whole(1, most)) })

const radioGroup: Check = (value, path, findings) => {
  shape({ ...named, options: list(groupOption, 2, 10) })(value, path, findings)
  if (isObject(value)) checkChoosing(value, path, findings)
}

const checkboxGroup: Check = (value, path, findings) => {
  shape({ ...named, ...counted(10), options: list(groupOption, 1, 10) })(value, path, findings)
  if (isObject(value)) checkChoosing(value, path, findings, 10)
}

const checkbox = shape({ ...typeAndId, custom_id: customId, default: maybe(truth) })

const fileUpload: Check = (value, path, findings) => {
  shape({ ...named, ...counted(10), file_types: maybe(list(text(1, 100, FILE_TYPE), 0, 10)) })(
    value,
    path,
    findings,
  )
  if (isObject(value)) checkChoosing(value, path, findings)
}

const CHILDREN: Record<number, Check> = {
  [ComponentType.TextInput]: textInput,
  [ComponentType.FileUpload]: fileUpload,
  [ComponentType.RadioGroup]: radioGroup,
  [ComponentType.CheckboxGroup]: checkboxGroup,
  [ComponentType.Checkbox]: checkbox,
  ...Object.fromEntries(SELECT_TYPES.map((type) => [type, select])),
}

function checkChild(value: unknown, path: Path, findings: Findings) {
  const check = isObject(value) ? CHILDREN[Number(value.type)] : undefined
  if (check === undefined || !isObject(value))
    return findings.breach(
      [...path, 'type'],
      'BASE_TYPE_CHOICES',
      `Value of field "type" must be one of (${Object.keys(CHILDREN).join(', ')},).`,
    )
  check(value, path, findings)
  if (value.disabled === true)
    findings.breach(
      [...path, 'disabled'],
      'COMPONENT_DISABLED_IN_MODAL',
      'A component of a modal cannot be disabled.',
    )
  if (value.min_values === 0 && value.required !== false)
    findings.breach(
      [...path, 'min_values'],
      'MIN_VALUES_NEEDS_OPTIONAL',
      'min_values 0 needs required: false.',
    )
}

const label: Check = (value, path, findings) => {
  shape({ ...typeAndId, label: text(1, 45), description: maybe(text(0, 100)), component: checkChild })(
    value,
    path,
    findings,
  )
  const child = isObject(value) && isObject(value.component) ? value.component : {}
  if (child.label)
    findings.breach([...path, 'component', 'label'], 'LABEL_TWICE', 'The Label names its child already.')
}

const rowOfInput: Check = (value, path, findings) => {
  findings.warn(path, 'DEPRECATED', 'Action rows in modals are deprecated in favor of Label')
  shape({ ...typeAndId, components: list(textInput, 1, 1) })(value, path, findings)
}

const textDisplay = shape({ ...typeAndId, content: text(1, 4000) })

const TOP: Record<number, Check> = {
  [ComponentType.ActionRow]: rowOfInput,
  [ComponentType.TextDisplay]: textDisplay,
  [ComponentType.Label]: label,
}

const top: Check = (value, path, findings) => {
  const check = isObject(value) ? TOP[Number(value.type)] : undefined
  if (check === undefined)
    return findings.breach(
      [...path, 'type'],
      'BASE_TYPE_CHOICES',
      'Value of field "type" must be one of (1, 10, 18,).',
    )
  check(value, path, findings)
}

/** The `data` of a modal callback. */
export function checkModal(data: unknown, path: Path, findings: Findings): void {
  shape({ custom_id: customId, title: text(1, 45), components: list(top, 1, COMPONENTS_PER_MODAL) })(
    data,
    path,
    findings,
  )
  if (isObject(data)) checkUniqueIds(data.components, [...path, 'components'], findings)
}

/** The fields that a person fills in, in order: the children of labels and rows. */
export function modalFields(data: Json): Json[] {
  return objectsOf(data.components).flatMap((each) =>
    isObject(each.component) ? [each.component] : objectsOf(each.components),
  )
}
