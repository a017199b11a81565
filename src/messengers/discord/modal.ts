import {
  type APILabelComponent,
  type APIModalInteractionResponseCallbackData,
  ComponentType,
  TextInputStyle,
} from 'discord.js'
import type { Presented, PresentedField, PresentedForm } from '#src/messengers/present.ts'
import { type Marks, writeCustomId } from './custom-id.ts'
import { cutText } from './cut.ts'
import { escapeText, oneLine } from './escape.ts'
import { costOf, LINE_COST } from './fit.ts'
import { writeFieldId } from './form-fields.ts'
import { COMPONENT, MODAL } from './limits.ts'

/** Photos that one field takes. Common practice, no source: a few views of one plant. */
const FILES_PER_FIELD = 4
/** More than this above the fields, and a phone shows no field without scrolling (common practice, no source). */
const MOST_INTRO = 900

/**
 * Whether a form may open at once. Everything that must be read has to fit above the fields; otherwise the answer
 * comes first, as a message, with a button that opens the form.
 */
export function opensAtOnce(presented: Presented): boolean {
  if (presented.form === null || presented.choices.length > 0 || presented.files.length > 0) return false
  const hasRoom = presented.form.fields.length < MODAL.components
  return hasRoom ? introCost(presented) <= MOST_INTRO : presented.lines.length === 0
}

/** A form as a modal of labeled fields, below the title, lines and safety lines of its answer. */
export function renderModal(
  presented: Presented,
  form: PresentedForm,
  at: { readonly marks: Marks; readonly guild: string | null },
): APIModalInteractionResponseCallbackData {
  const fields = form.fields.slice(0, MODAL.components).map(labelOf)
  const intro = fields.length < MODAL.components ? introOf(presented) : ''
  return {
    custom_id: writeCustomId({ head: form.token, ...at }),
    title: cutText(oneLine(form.title), MODAL.title) || '…',
    components: [
      ...(intro === '' ? [] : [{ type: ComponentType.TextDisplay as const, content: intro }]),
      ...fields,
    ],
  }
}

/** The title comes first: it says what is asked, or what stands in the way; the form's own is a few words. */
function introLines(presented: Presented): { lines: string[]; safety: string[] } {
  return {
    lines: [presented.title, ...presented.lines].map((line) => line.trim()).filter((line) => line !== ''),
    safety: presented.safety.map((line) => oneLine(line.text)).filter((line) => line !== ''),
  }
}

function introCost(presented: Presented): number {
  const { lines, safety } = introLines(presented)
  return costOf([...lines, ...safety]) + LINE_COST
}

function introOf(presented: Presented): string {
  const { lines, safety } = introLines(presented)
  // A form that is opened again from its message has shown its lines there.
  if (introCost(presented) > MOST_INTRO) return ''
  return [...lines.map(escapeText), ...safety.map((line) => `> ${escapeText(line)}`)].join('\n')
}

function labelOf(field: PresentedField): APILabelComponent {
  const label = oneLine(field.label)
  const short = cutText(label, MODAL.label) || oneLine(field.name).slice(0, MODAL.label) || '…'
  const hint = oneLine(field.hint ?? '') || (short === label ? '' : label)
  const description = cutText(hint, MODAL.description)
  return {
    type: ComponentType.Label,
    label: short,
    ...(description === '' ? {} : { description }),
    component: childOf(field),
  }
}

function childOf(field: PresentedField): APILabelComponent['component'] {
  switch (field.kind) {
    case 'file':
      return {
        type: ComponentType.FileUpload,
        custom_id: writeFieldId(field),
        min_values: field.required ? 1 : 0,
        max_values: FILES_PER_FIELD,
        required: field.required,
      }
    case 'choice':
    case 'choices':
      return fitsMenu(field) ? menuOf(field) : inputOf({ ...field, kind: 'text' })
    case 'text':
    case 'long-text':
      return inputOf(field)
    default:
      return field.kind satisfies never
  }
}

/** A menu needs values that are short and all different; otherwise people type what they mean. */
function fitsMenu({ options }: PresentedField): boolean {
  const values = options.map((option) => option.value)
  return (
    values.length > 0 &&
    values.length <= COMPONENT.selectOptions &&
    new Set(values.map((value) => value.trim())).size === values.length &&
    values.every((value) => value.trim() !== '' && value.length <= COMPONENT.optionText)
  )
}

function menuOf(field: PresentedField): APILabelComponent['component'] {
  const most = field.kind === 'choices' ? field.options.length : 1
  const chosen = new Set(field.kind === 'choices' ? (field.value ?? '').split(/\s*[;,]\s*/) : [field.value])
  const marked = field.options.filter((option) => chosen.has(option.value)).slice(0, most)
  return {
    type: ComponentType.StringSelect,
    custom_id: writeFieldId(field),
    min_values: field.required ? 1 : 0,
    max_values: most,
    required: field.required,
    options: field.options.map((option) => ({
      value: option.value,
      label: cutText(oneLine(option.label), COMPONENT.optionText) || option.value,
      ...(marked.includes(option) ? { default: true } : {}),
    })),
  }
}

function inputOf(field: PresentedField): APILabelComponent['component'] {
  const most = Math.min(Math.max(Math.trunc(field.maxLength) || 1, 1), MODAL.value)
  const value = cutText(field.value ?? '', most).trim()
  return {
    type: ComponentType.TextInput,
    custom_id: writeFieldId(field),
    style: field.kind === 'long-text' ? TextInputStyle.Paragraph : TextInputStyle.Short,
    required: field.required,
    max_length: most,
    ...(value === '' ? {} : { value }),
  }
}
