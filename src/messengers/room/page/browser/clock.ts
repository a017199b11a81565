/// <reference lib="dom" />
import type { PageAnswer, PageRequest } from '../shapes.ts'
import { openDialog } from './dialog.ts'
import { byId, el, freshId } from './dom.ts'
import { ask } from './server.ts'
import { word } from './start.ts'

/** Moves the practice clock; what falls due until then arrives by itself. */
export function wireClock(show: (answer: PageAnswer) => void): void {
  byId('clock', HTMLButtonElement).addEventListener('click', () => {
    const move = async (wants: PageRequest) => {
      dialog.close()
      show(await ask(wants))
    }
    const id = freshId()
    const days = el('input', { id, type: 'number', min: 1, max: 400, value: 30, inputmode: 'numeric' })
    const dialog = openDialog(word('clock'), [
      el('div', { class: 'choices long' }, [
        el(
          'button',
          { type: 'button', class: 'main', click: () => move({ kind: 'morning' }) },
          word('clock-morning'),
        ),
        el(
          'button',
          { type: 'button', click: () => move({ kind: 'wait', days: 8 }) },
          word('clock-plus-eight'),
        ),
      ]),
      el(
        'form',
        {
          class: 'fill',
          submit: (event) => {
            event.preventDefault()
            const typed = Math.trunc(Number(days.value))
            if (typed >= 1 && typed <= 400) void move({ kind: 'wait', days: typed })
          },
        },
        el('div', { class: 'field' }, el('label', { for: id }, word('clock-days')), days),
        el('div', { class: 'row' }, el('button', { type: 'submit' }, word('clock-go'))),
      ),
    ])
  })
}
