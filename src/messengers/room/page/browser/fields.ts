/// <reference lib="dom" />
import { el, freshId } from './dom.ts'
import { attachOffers, type Offer } from './offers.ts'
import { Refused, upload } from './server.ts'
import { word } from './start.ts'

/** What a field asks for, whether of a command or of an answer's form. */
export interface FieldParts {
  readonly name: string
  readonly label: string
  readonly hint: string | null
  /** Shown small beside the label: what the field is called on a typed line. */
  readonly code?: string
  readonly required: boolean
  readonly kind: 'text' | 'long-text' | 'choice' | 'choices' | 'number' | 'boolean' | 'file'
  readonly value: string
  readonly options: readonly { readonly value: string; readonly label: string }[]
  readonly most: number | null
  /** What completes it while it is typed. */
  readonly find?: (typed: string) => Promise<readonly { readonly name: string; readonly value: string }[]>
}

export type Filled = string | readonly string[] | readonly { readonly upload: string }[]

export interface Field {
  readonly name: string
  readonly whole: HTMLElement
  /** What was filled in; files are sent ahead. @throws Refused */
  read(): Promise<Filled>
  /** Shows what is wrong, or nothing. */
  blame(problem: string | null): void
  focus(): void
}

/** A labeled field with room for its hint and its error. */
export function buildField(parts: FieldParts): Field {
  const id = freshId()
  const hintId = `${id}-hint`
  const wrongId = `${id}-wrong`
  const wrong = el('p', { class: 'problem', id: wrongId, role: 'alert', hidden: true })
  const described = parts.hint === null ? null : hintId
  const label = [
    parts.label,
    parts.required ? el('span', { class: 'needed' }, ` ${word('needed')}`) : null,
    parts.code === undefined ? null : el('code', {}, parts.code),
  ]
  const hint = parts.hint === null ? null : el('p', { class: 'hint', id: hintId }, sayHint(parts.hint))
  const control = controlOf(parts, id, described)
  const isGroup = parts.kind === 'choices'
  const whole = isGroup
    ? el('fieldset', { class: 'field' }, el('legend', {}, label), hint, control.shown, wrong)
    : el('div', { class: 'field' }, el('label', { for: id }, label), hint, control.shown, wrong)
  return {
    name: parts.name,
    whole,
    read: control.read,
    blame(problem) {
      wrong.textContent = problem === null ? '' : `${word('problem')} ${problem}`
      wrong.hidden = problem === null
      const ids = [described, problem === null ? null : wrongId].filter((one) => one !== null).join(' ')
      control.marked.setAttribute('aria-invalid', String(problem !== null))
      if (ids === '') control.marked.removeAttribute('aria-describedby')
      else control.marked.setAttribute('aria-describedby', ids)
    },
    focus: () => control.marked.focus(),
  }
}

/** A hint that is a bare figure shows what to type, and says so. */
const sayHint = (hint: string) => (/^\d[^:]*$/.test(hint) ? `${word('for-example')} ${hint}` : hint)

interface Control {
  readonly shown: HTMLElement
  /** Carries the error for a screen reader, and takes the focus. */
  readonly marked: HTMLElement
  readonly read: () => Promise<Filled>
}

function controlOf(parts: FieldParts, id: string, described: string | null): Control {
  const base = {
    id,
    name: parts.name,
    'aria-describedby': described,
    'aria-required': parts.required ? 'true' : null,
  }
  switch (parts.kind) {
    case 'long-text': {
      const box = el('textarea', { ...base, rows: 4, maxlength: parts.most })
      box.value = parts.value
      return plain(box, box)
    }
    case 'choice':
      return selectOf(parts, base, parts.options)
    case 'boolean':
      return selectOf(parts, base, [
        { value: 'yes', label: word('yes') },
        { value: 'no', label: word('no') },
      ])
    case 'choices':
      return ticksOf(parts)
    case 'file':
      return fileOf(parts, base)
    case 'number':
    case 'text':
      return inputOf(parts, base)
    default:
      return parts.kind satisfies never
  }
}

type Base = Readonly<Record<string, string | null>>
type Typing = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement

const plain = (shown: HTMLElement, input: Typing): Control => ({
  shown,
  marked: input,
  read: async () => input.value,
})

function inputOf(parts: FieldParts, base: Base): Control {
  const input = el('input', {
    ...base,
    type: 'text',
    inputmode: parts.kind === 'number' ? 'decimal' : null,
    maxlength: parts.most,
    autocomplete: 'off',
    autocapitalize: 'none',
    spellcheck: 'false',
  })
  input.value = parts.value
  const { find } = parts
  if (find === undefined) return plain(input, input)
  const list = el('div', {
    id: freshId(),
    class: 'offers',
    role: 'listbox',
    'aria-label': word('suggestions'),
    hidden: true,
  })
  for (const [name, value] of [
    ['role', 'combobox'],
    ['aria-expanded', 'false'],
    ['aria-controls', list.id],
    ['aria-autocomplete', 'list'],
  ] as const)
    input.setAttribute(name, value)
  attachOffers({
    input,
    list,
    find: async (typed) =>
      (await find(typed)).map(
        ({ name, value }): Offer => ({
          label: name,
          pick: () => {
            input.value = value
          },
        }),
      ),
  })
  return plain(el('div', { class: 'completed' }, input, list), input)
}

function selectOf(parts: FieldParts, base: Base, options: FieldParts['options']): Control {
  const select = el(
    'select',
    base,
    el('option', { value: '' }, word('choose')),
    options.map(({ value, label }) => el('option', { value, selected: value === parts.value }, label)),
  )
  return plain(select, select)
}

function ticksOf(parts: FieldParts): Control {
  const ticked = new Set(parts.value.split(/\s*[;,]\s*/))
  const boxes = parts.options.map(({ value }) =>
    el('input', { type: 'checkbox', value, checked: ticked.has(value) }),
  )
  const shown = el(
    'div',
    { class: 'ticks' },
    parts.options.map(({ label }, at) => el('label', {}, boxes[at] ?? null, el('span', {}, label))),
  )
  return {
    shown,
    marked: boxes[0] ?? shown,
    read: async () => boxes.filter((box) => box.checked).map((box) => box.value),
  }
}

const MOST_FILES = 4
const MOST_BYTES = 10 * 1024 * 1024

function fileOf(_parts: FieldParts, base: Base): Control {
  const input = el('input', {
    ...base,
    type: 'file',
    accept: 'image/*,.pdf,.json,.csv,.txt',
    multiple: true,
  })
  return {
    shown: input,
    marked: input,
    async read() {
      const files = [...(input.files ?? [])].slice(0, MOST_FILES)
      if (files.some((file) => file.size > MOST_BYTES)) throw new Refused(413)
      const sent: { upload: string }[] = []
      for (const file of files) sent.push({ upload: await upload(file) })
      return sent
    },
  }
}
