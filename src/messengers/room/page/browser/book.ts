/// <reference lib="dom" />
import type { PageAnswer, PageCommand, PageOption } from '../shapes.ts'
import { openDialog } from './dialog.ts'
import { el } from './dom.ts'
import { buildField, type Field, type Filled } from './fields.ts'
import { buildForm } from './form.ts'
import { ask, suggest } from './server.ts'
import { start, word } from './start.ts'

/** Fields that stand open; what is asked for less often is folded away below them. */
const OPEN_FIELDS = 8

/** All commands with what they are for; each opens its form. */
export function openCommands(show: (answer: PageAnswer) => void): void {
  const list = el('ul', { class: 'commands' })
  const filter = el('input', {
    type: 'search',
    autocomplete: 'off',
    'aria-label': word('filter'),
    placeholder: word('filter'),
  })
  const fill = () => {
    const wanted = filter.value.trim().replace(/^\//, '').toLowerCase()
    const found = start.commands.filter(({ name, about }) =>
      `${name} ${about}`.toLowerCase().includes(wanted),
    )
    list.replaceChildren(
      ...found.map((command) =>
        el(
          'li',
          {},
          el(
            'button',
            {
              type: 'button',
              click: () => {
                dialog.close()
                openCommand(command, {}, show)
              },
            },
            el('b', {}, `/${command.name}`),
            el('span', {}, command.about),
          ),
        ),
      ),
      ...(found.length === 0 ? [el('li', { class: 'hint' }, word('no-command'))] : []),
    )
  }
  filter.addEventListener('input', fill)
  fill()
  const dialog = openDialog(word('all-commands'), [filter, list])
}

/** The form of one command, filled in as far as something is known. */
export function openCommand(
  command: PageCommand,
  known: Readonly<Record<string, string>>,
  show: (answer: PageAnswer) => void,
): void {
  const fields: Field[] = []
  const read = (): Record<string, string> => {
    const typed: Record<string, string> = {}
    for (const { name, whole } of fields) {
      const input = whole.querySelector<HTMLInputElement>('input, select, textarea')
      if (input !== null && input.type !== 'file' && input.value !== '') typed[name] = input.value
    }
    return typed
  }
  const sorted = [...command.options].sort(
    (one, other) => Number(isKnown(other, known)) - Number(isKnown(one, known)),
  )
  for (const option of sorted) fields.push(fieldOf(command, option, known[option.name] ?? '', read))
  const whole = fields.map((field) => field.whole)
  const folded = whole.slice(OPEN_FIELDS)
  const form = buildForm({
    fields,
    shown: [
      ...whole.slice(0, OPEN_FIELDS),
      folded.length === 0 ? null : el('details', {}, el('summary', {}, word('more-fields')), folded),
    ],
    button: word('run'),
    send: (filled) => ask({ kind: 'run', command: command.name, options: optionsOf(filled) }),
    done: (answer, isMended) => {
      if (isMended) {
        dialog.close()
        // Closing gives the focus back to where the form was opened from; it goes on at the answer.
        if (document.activeElement instanceof HTMLElement) document.activeElement.blur()
        dialog.remove()
      }
      show(answer)
      if (!isMended) openFolded(form)
    },
    more: [el('button', { type: 'button', click: () => dialog.close() }, word('cancel'))],
  })
  const dialog = openDialog(`/${command.name}`, [el('p', {}, command.about), form])
}

const isKnown = ({ name, required }: PageOption, known: Readonly<Record<string, string>>) =>
  required || known[name] !== undefined

/** A field with an error must not stay folded away. */
function openFolded(form: HTMLElement): void {
  const wrong = form.querySelector('details [aria-invalid="true"]')
  const folded = wrong?.closest('details')
  if (folded && wrong instanceof HTMLElement) {
    folded.open = true
    wrong.focus()
  }
}

function fieldOf(
  command: PageCommand,
  option: PageOption,
  value: string,
  read: () => Record<string, string>,
): Field {
  const find = (typed: string) => {
    const { [option.name]: _own, ...others } = read()
    return suggest(command.name, option.name, typed, others)
  }
  return buildField({
    name: option.name,
    label: option.label,
    hint: null,
    code: option.name,
    required: option.required,
    kind: option.kind,
    value,
    options: option.values,
    most: option.most,
    ...(option.suggests ? { find } : {}),
  })
}

/** Fields that were left empty are not given at all. */
function optionsOf(filled: Readonly<Record<string, Filled>>): Record<string, string | { upload: string }> {
  const options: Record<string, string | { upload: string }> = {}
  for (const [name, value] of Object.entries(filled)) {
    const one = typeof value === 'string' ? value : value[0]
    if (one !== undefined && one !== '') options[name] = one
  }
  return options
}
