/// <reference lib="dom" />
import { el, freshId } from './dom.ts'
import { word } from './start.ts'

/** A dialog over the sheet. The browser keeps the focus in it, gives it back, and closes it with Escape. */
export function openDialog(title: string, content: readonly HTMLElement[]): HTMLDialogElement {
  const head = freshId()
  const dialog: HTMLDialogElement = el(
    'dialog',
    { 'aria-labelledby': head },
    el(
      'div',
      { class: 'head' },
      el('h2', { id: head }, title),
      el('button', { type: 'button', click: () => dialog.close() }, word('close')),
    ),
    el('div', { class: 'content' }, [...content]),
  )
  dialog.addEventListener('close', () => dialog.remove())
  document.body.append(dialog)
  dialog.showModal()
  const first = dialog.querySelector<HTMLElement>('.content :is(input, select, textarea, button)')
  first?.focus()
  return dialog
}
