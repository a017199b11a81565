/// <reference lib="dom" />
import type { PresentedForm } from '#src/messengers/present.ts'
import type { PageAnswer, PageChoice, PageEntry, PageFile } from '../shapes.ts'
import { el, freshId } from './dom.ts'
import { buildField } from './fields.ts'
import { buildForm } from './form.ts'
import { ask } from './server.ts'
import { word } from './start.ts'

export interface EntryParts {
  /** Shows what came of a press or a form below. */
  readonly show: (answer: PageAnswer) => void
}

/** So many buttons are one question's answers, not ways on. */
const MANY_CHOICES = 3

/** A figure that is longer than this would take two lines on a phone. */
const MOST_HUGE = 8

/** One answer as a numbered slip: what it says, its large figure, its safety lines, what can be done next. */
export function buildEntry(entry: PageEntry, parts: EntryParts): HTMLLIElement {
  const head = freshId()
  return el(
    'li',
    { class: 'slip', 'data-outcome': entry.outcome, 'data-turn': entry.turn },
    el(
      'div',
      { class: 'stub', 'aria-hidden': 'true' },
      el('b', {}, entry.mark),
      el('span', {}, entry.number ?? '–'),
    ),
    el(
      'article',
      { 'aria-labelledby': head },
      askedOf(entry),
      el(
        'h2',
        { id: head, tabindex: '-1' },
        el('span', { class: 'word' }, `${entry.mark} ${entry.word}`),
        entry.figure === null
          ? null
          : el('span', { class: entry.figure.length > MOST_HUGE ? 'figure long' : 'figure' }, entry.figure),
        entry.title === '' ? null : el('span', { class: 'title' }, unbroken(entry.title)),
      ),
      ...bodyOf(entry, parts),
      entry.note === null ? null : el('p', { class: 'hint' }, entry.note),
      entry.safety.length === 0
        ? null
        : el('section', { class: 'safety', 'aria-label': word('safety') }, listOf('', entry.safety)),
      entry.working.length === 0
        ? null
        : el(
            'details',
            {},
            el('summary', {}, word('working')),
            el(
              'ol',
              { class: 'working' },
              entry.working.map((line) => el('li', {}, line)),
            ),
          ),
      languagesOf(entry, parts),
      entry.asked === '' ? null : el('p', { class: 'small' }, `${entry.at} `, el('code', {}, entry.asked)),
      el(
        'p',
        { class: 'small' },
        [entry.numberLine, entry.standing, entry.demo]
          .filter((one) => one !== null && one !== '')
          .join(' · '),
      ),
    ),
  )
}

/**
 * What is said, shown, asked and offered, in that order; but where one of many buttons answers, they come first, with
 * the picture that they are about. A form that may stay empty waits folded below the buttons there, and below those of
 * an answer that is whole without it.
 */
function bodyOf(entry: PageEntry, parts: EntryParts): readonly (HTMLElement | null)[] {
  const all = entry.lines.flatMap((line) => line.split('\n'))
  const form = entry.form && formOf(entry.form, parts)
  const choices = choicesOf(entry, parts)
  const mayWait = choices !== null && !entry.form?.fields.some(({ required }) => required)
  const folded = () => form && el('details', {}, el('summary', {}, entry.form?.open ?? ''), form)
  if (entry.outcome !== 'question' && mayWait)
    return [linesOf(all), filesOf(entry.files, { isSaved: true }), choices, folded()]
  if (!mayWait || entry.choices.length < MANY_CHOICES)
    return [linesOf(all), filesOf(entry.files, { isSaved: true }), form, choices]
  // What the buttons say in full.
  const isButton = (line: string) => /^\d+: /.test(line)
  return [
    filesOf(entry.files, { isSaved: false }),
    linesOf(all.filter((line) => !isButton(line))),
    choices,
    folded(),
    linesOf(all.filter(isButton)),
  ]
}

const linesOf = (lines: readonly string[]) => (lines.length === 0 ? null : listOf('lines', lines))

const filesOf = (files: PageEntry['files'], how: { readonly isSaved: boolean }) =>
  files.length === 0
    ? null
    : el(
        'div',
        { class: 'files' },
        files.map((file) => fileOf(file, how)),
      )

const UNIT = '(?:g|kg|lb|oz|fl|mL|L|gal|qt|pt|ft|pies|in|yd|mph|psi|%)(?!\\p{L})'
const INSIDE = new RegExp(`(?<=\\d) (?=${UNIT})|(?<=\\b(?:fl|oz)) (?=(?:oz|wt|peso)\\b)`, 'gu')

/** A figure stays on one line with its unit, and a number to call in one piece. */
const unbroken = (text: string) => text.replace(INSIDE, '\u00a0').replace(/(?<=\d)-(?=\d)/g, '-\u2060')

const listOf = (kind: string, lines: readonly string[]) =>
  el(
    'ul',
    { class: kind === '' ? null : kind },
    lines.map((line) => el('li', {}, unbroken(line))),
  )

function askedOf(entry: PageEntry): HTMLElement {
  return el(
    'p',
    { class: 'asked' },
    el('span', { class: 'seen' }, entry.isPrivate ? word('private') : word('shared')),
    el('b', {}, entry.by),
  )
}

function fileOf(file: PageFile, { isSaved }: { readonly isSaved: boolean }): HTMLElement {
  const save = el(
    'a',
    { class: 'save', href: `${file.address}&save`, download: file.name },
    `${word('download')} ${file.name}`,
  )
  if (file.size === null)
    return el('div', { class: 'paper' }, file.alt === file.name ? null : el('span', {}, file.alt), save)
  const [width, height] = file.size
  return el(
    'figure',
    {},
    el(
      'picture',
      {},
      el('source', {
        srcset: `${file.address}&theme=dark`,
        media: '(prefers-color-scheme: dark)',
        width,
        height,
      }),
      el('img', { src: file.address, alt: file.alt, width, height, decoding: 'async' }),
    ),
    isSaved ? el('figcaption', {}, save) : null,
  )
}

function choicesOf(entry: PageEntry, parts: EntryParts): HTMLElement | null {
  if (entry.choices.length === 0) return null
  const isLong =
    entry.choices.length === 1 || entry.choices.some(({ label, hint }) => label.length > 24 || hint !== null)
  return el(
    'div',
    { class: isLong ? 'choices long' : 'choices' },
    entry.choices.map((choice) => buttonOf(choice, entry.isClosed, parts)),
  )
}

/** The same answer in another language, as a slip of its own below; good as often as it is pressed. */
function languagesOf({ turn, languages }: PageEntry, parts: EntryParts): HTMLElement | null {
  if (languages.length === 0) return null
  return el(
    'div',
    { class: 'languages' },
    languages.map(({ id, name }) => {
      const button = el('button', { type: 'button', class: 'plain', lang: id }, name)
      button.addEventListener('click', async () => {
        parts.show(await ask({ kind: 'line', text: `> ${id}`, last: turn }))
      })
      return button
    }),
  )
}

function buttonOf(choice: PageChoice, isClosed: boolean, parts: EntryParts): HTMLElement {
  const button = el(
    'button',
    { type: 'button', class: choice.look, 'data-repeat': choice.isRepeat },
    el('span', {}, choice.label),
    choice.hint === null ? null : el('small', {}, choice.hint),
  )
  useUp(button, isClosed)
  button.addEventListener('click', async () => {
    if (button.getAttribute('aria-disabled') === 'true') return
    button.setAttribute('aria-busy', 'true')
    try {
      parts.show(await ask({ kind: 'press', token: choice.token }))
    } finally {
      button.removeAttribute('aria-busy')
    }
  })
  return button
}

/** A button that was used stays where it is, so that nothing moves and the focus is not lost. */
function useUp(button: HTMLElement, isClosed: boolean): void {
  if (!isClosed || button.hasAttribute('data-repeat')) return
  button.setAttribute('aria-disabled', 'true')
  button.title = word('used')
}

/** Buttons and form of an answer that somebody has used. */
export function closeEntry(slip: Element): void {
  for (const button of slip.querySelectorAll<HTMLElement>('.choices button')) useUp(button, true)
  for (const form of slip.querySelectorAll('form')) {
    form.setAttribute('data-closed', '')
    for (const control of form.querySelectorAll<HTMLInputElement>('input, textarea, select, button'))
      control.disabled = true
  }
}

function formOf(form: PresentedForm, parts: EntryParts): HTMLElement {
  const fields = form.fields.map((field) =>
    buildField({
      ...field,
      value: field.value ?? '',
      most: field.kind === 'file' ? null : field.maxLength,
    }),
  )
  return buildForm({
    fields,
    shown: [el('h3', {}, form.title), ...fields.map(({ whole }) => whole)],
    button: word('send'),
    send: (filled) => ask({ kind: 'submit', token: form.token, fields: filled }),
    done: (answer) => parts.show(answer),
  })
}
