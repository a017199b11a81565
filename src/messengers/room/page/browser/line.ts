/// <reference lib="dom" />
import type { PageAnswer } from '../shapes.ts'
import { openCommand } from './book.ts'
import { byId } from './dom.ts'
import { attachOffers, type Offer } from './offers.ts'
import { ask, complete } from './server.ts'
import { lastTurn } from './sheet.ts'
import { start } from './start.ts'

/** The line on which everything can be typed, as in the terminal. */
export function wireLine(show: (answer: PageAnswer) => void): void {
  const input = byId('line', HTMLInputElement)
  const form = byId('entry', HTMLFormElement)
  const list = byId('offers', HTMLElement)
  const offers = attachOffers({
    input,
    list,
    find: (text) => (text.startsWith('/') ? findOffers(text) : Promise.resolve([])),
    takesFirst: (text) => isBeginning(text),
  })

  async function findOffers(text: string): Promise<Offer[]> {
    if (isBeginning(text)) {
      const typed = text.slice(1).toLowerCase()
      return start.commands
        .filter(({ name }) => name.startsWith(typed))
        .map((command) => ({
          label: `/${command.name}`,
          detail: command.about,
          pick: () => {
            input.value = ''
            openCommand(command, {}, show)
          },
        }))
    }
    const { found, replaced } = await complete(text)
    return found.map((offered) => ({
      label: offered.trim(),
      pick: () => {
        input.value = `${text.slice(0, text.length - replaced.length)}${offered}`
        input.dispatchEvent(new Event('input'))
      },
    }))
  }

  // A slash, wherever nothing is being typed, begins a command.
  document.addEventListener('keydown', (event) => {
    const isTyping = event.target instanceof Element && event.target.matches('input, textarea, select')
    if (event.key !== '/' || event.ctrlKey || event.metaKey || isTyping) return
    if (document.querySelector('dialog[open]') === null) input.focus()
  })

  form.addEventListener('submit', async (event) => {
    event.preventDefault()
    const text = input.value
    if (text.trim() === '') return
    offers.close()
    input.value = ''
    show(await ask({ kind: 'line', text, last: lastTurn() }))
  })
}

/** True while what is typed is the beginning of a command and not yet all of one. */
function isBeginning(text: string): boolean {
  if (!text.startsWith('/')) return false
  const typed = text.slice(1).toLowerCase()
  return (
    !start.commands.some(({ name }) => typed === name || typed.startsWith(`${name} `)) &&
    start.commands.some(({ name }) => name.startsWith(typed))
  )
}
