import { type APIModalSubmission, ComponentType, type ModalSubmitComponent } from 'discord-api-types/v10'
import type { FileSeed } from '../files.ts'
import { isObject, type Json, objectsOf } from '../rules/check.ts'
import { fitsFileTypes, isFileSeed } from './options.ts'
import type { Resolved } from './resolved.ts'

/** Text, one choice, several choices, a tick, or files; people, roles and channels by name or id. */
export type FieldValue = string | string[] | boolean | FileSeed[]
export type FieldValues = Record<string, FieldValue>

const wrong = (field: Json, why: string) =>
  new Error(`Cannot fill field "${String(field.custom_id)}": ${why}`)

function fillText(field: Json, given: FieldValue | undefined): string {
  const value = given ?? field.value ?? ''
  if (typeof value !== 'string') throw wrong(field, 'it takes text')
  if (value === '' && field.required === false) return value
  if (value === '') throw wrong(field, 'it is required')
  const min = Number(field.min_length ?? 0)
  const max = Number(field.max_length ?? 4000)
  if (value.length < min || value.length > max)
    throw wrong(field, `${value.length} characters, not ${min} to ${max}`)
  return value
}

const defaults = (field: Json) =>
  objectsOf(field.options)
    .filter((option) => option.default === true)
    .map((option) => String(option.value))

function checkCount(field: Json, count: number, fallbackMax: number): void {
  const min = field.required === false && count === 0 ? 0 : Number(field.min_values ?? 1)
  const max = Number(field.max_values ?? fallbackMax)
  if (count < min || count > max) throw wrong(field, `${count} chosen, not ${min} to ${max}`)
}

function checkOffered(field: Json, values: readonly string[]): void {
  const offered = objectsOf(field.options).map((option) => option.value)
  for (const value of values) if (!offered.includes(value)) throw wrong(field, `"${value}" is not offered`)
}

/** Values of a list of choices, from what was given or what was marked. */
export function fillChoices(field: Json, given: FieldValue | undefined, fallbackMax = 1): string[] {
  const values = given === undefined ? defaults(field) : typeof given === 'string' ? [given] : given
  if (!Array.isArray(values) || values.some((each) => typeof each !== 'string'))
    throw wrong(field, 'it takes choices')
  checkOffered(field, values as string[])
  checkCount(field, values.length, fallbackMax)
  return values as string[]
}

/** Ids for a menu of people, roles or channels. */
export function fillReferences(field: Json, given: FieldValue | undefined, resolved: Resolved): string[] {
  const refs =
    typeof given === 'string'
      ? [given]
      : Array.isArray(given)
        ? given.filter((each) => typeof each === 'string')
        : []
  checkCount(field, refs.length, 1)
  return refs.map((ref) => {
    if (field.type === ComponentType.RoleSelect) return resolved.role(ref)
    if (field.type === ComponentType.ChannelSelect) return resolved.channel(ref)
    return resolved.user(ref)
  })
}

function fillFiles(field: Json, given: FieldValue | undefined, resolved: Resolved): string[] {
  const files = Array.isArray(given) ? given.filter(isFileSeed) : []
  checkCount(field, files.length, 1)
  const types = Array.isArray(field.file_types) ? (field.file_types as string[]) : undefined
  for (const file of files)
    if (!fitsFileTypes(file.name, types)) throw wrong(field, `"${file.name}" is of no allowed type`)
  return files.map((file) => resolved.file(file))
}

function fillRadio(field: Json, given: FieldValue | undefined): string | null {
  const value = given ?? defaults(field)[0] ?? null
  if (value === null && field.required === false) return null
  if (typeof value !== 'string') throw wrong(field, 'one of its options must be chosen')
  checkOffered(field, [value])
  return value
}

function fill(field: Json, given: FieldValue | undefined, resolved: Resolved): ModalSubmitComponent {
  const base = { type: field.type, id: Number(field.id ?? 0), custom_id: String(field.custom_id) }
  const answer = () => {
    switch (field.type) {
      case ComponentType.TextInput:
        return { value: fillText(field, given) }
      case ComponentType.StringSelect:
        return { values: fillChoices(field, given) }
      case ComponentType.CheckboxGroup:
        return { values: fillChoices(field, given, objectsOf(field.options).length) }
      case ComponentType.FileUpload:
        return { values: fillFiles(field, given, resolved) }
      case ComponentType.RadioGroup:
        return { value: fillRadio(field, given) }
      case ComponentType.Checkbox:
        return { value: given === undefined ? field.default === true : given === true }
      default:
        return { values: fillReferences(field, given, resolved) }
    }
  }
  return { ...base, ...answer() } as ModalSubmitComponent
}

/** Gives every component an id, in order, as the platform does. */
function numbered(components: unknown): Json[] {
  let last = 0
  const number = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(number)
    if (!isObject(value)) return value
    const own = typeof value.type === 'number' ? { id: value.id ?? ++last } : {}
    return {
      ...value,
      ...own,
      ...(value.component ? { component: number(value.component) } : {}),
      ...(value.components ? { components: number(value.components) } : {}),
    }
  }
  return objectsOf(components).map((each) => number(each) as Json)
}

/** A modal as filled in by a person; a name that the form does not have throws. */
export function fillForm(modal: Json, values: FieldValues, resolved: Resolved): APIModalSubmission {
  const left = new Set(Object.keys(values))
  const take = (field: Json) => {
    left.delete(String(field.custom_id))
    return fill(field, values[String(field.custom_id)], resolved)
  }
  const components = numbered(modal.components).map((top) => {
    const base = { type: top.type, id: top.id }
    if (isObject(top.component)) return { ...base, component: take(top.component) }
    if (Array.isArray(top.components)) return { ...base, components: objectsOf(top.components).map(take) }
    return base
  })
  if (left.size > 0) throw new Error(`Cannot fill field "${[...left][0]}": the form has none of that name`)
  const objects = resolved.any ? { resolved: resolved.data } : {}
  return {
    custom_id: String(modal.custom_id),
    components: components as APIModalSubmission['components'],
    ...objects,
  }
}
