/// <reference lib="dom" />
import type { PageAnswer, PageStep } from '../shapes.ts'
import { openCommand } from './book.ts'
import { byId, el } from './dom.ts'
import { ask } from './server.ts'
import { start, word } from './start.ts'

const KEPT = 'swardhand-tour'

/** A browser may keep nothing for a page; then the tour is offered again. */
function isDone(): boolean {
  try {
    return localStorage.getItem(KEPT) === 'done'
  } catch {
    return false
  }
}

function keepDone(): void {
  try {
    localStorage.setItem(KEPT, 'done')
  } catch {
    // Nothing is lost but that it is offered again.
  }
}

/** Five steps through a whole job, for the first visit. It can be left at any of them. */
export function wireTour(show: (answer: PageAnswer) => void): void {
  const place = byId('tour', HTMLElement)
  const end = () => {
    keepDone()
    place.hidden = true
    place.replaceChildren()
  }
  const go = (step: PageStep) => {
    const { does } = step
    if (does.kind === 'days') {
      void ask({ kind: 'wait', days: does.days }).then(show)
      return
    }
    const command = start.commands.find(({ name }) => name === does.command)
    if (command !== undefined) openCommand(command, does.options, show)
  }
  const draw = (at: number, isFocused: boolean) => {
    const step = start.tour[at]
    if (step === undefined) return end()
    const isLast = at === start.tour.length - 1
    const head = el(
      'h2',
      { id: 'tour-head', tabindex: '-1' },
      el('span', {}, `${word('tour-title')} ${at + 1}/${start.tour.length}`),
      step.title,
    )
    place.replaceChildren(
      head,
      el('p', {}, step.text),
      el(
        'div',
        { class: 'row' },
        el('button', { type: 'button', class: 'main', click: () => go(step) }, step.button),
        at === 0
          ? null
          : el('button', { type: 'button', click: () => draw(at - 1, true) }, word('tour-back')),
        el(
          'button',
          { type: 'button', click: () => draw(at + 1, true) },
          isLast ? word('tour-end') : word('tour-next'),
        ),
        isLast ? null : el('button', { type: 'button', click: end }, word('tour-skip')),
      ),
    )
    place.hidden = false
    if (isFocused) head.focus()
  }
  if (!isDone() && start.tour.length > 0) draw(0, false)
}
