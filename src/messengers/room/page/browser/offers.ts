/// <reference lib="dom" />
import { el, freshId } from './dom.ts'

export interface Offer {
  readonly label: string
  readonly detail?: string
  readonly pick: () => void
}

export interface OfferParts {
  readonly input: HTMLInputElement
  readonly list: HTMLElement
  readonly find: (text: string) => Promise<readonly Offer[]>
  /** Enter takes the first offer although none was walked to. */
  readonly takesFirst?: (text: string) => boolean
}

const PAUSE_MS = 90

/** Offers that come up while somebody types, for the keyboard, the finger and the screen reader alike. */
export function attachOffers({ input, list, find, takesFirst }: OfferParts): { close(): void } {
  let offers: readonly Offer[] = []
  /** What stood on the line when these were found: a quick hand has typed on since. */
  let foundFor = ''
  let active = -1
  let asked = 0
  let timer = 0

  const close = () => {
    asked += 1
    clearTimeout(timer)
    offers = []
    active = -1
    list.hidden = true
    list.replaceChildren()
    input.setAttribute('aria-expanded', 'false')
    input.removeAttribute('aria-activedescendant')
  }
  const pick = (offer: Offer | undefined) => {
    close()
    offer?.pick()
  }
  const walk = (to: number) => {
    const items = [...list.children]
    active = items.length === 0 ? -1 : (to + items.length) % items.length
    for (const [at, item] of items.entries()) item.setAttribute('aria-selected', String(at === active))
    const found = items[active]
    if (found === undefined) return
    input.setAttribute('aria-activedescendant', found.id)
    found.scrollIntoView({ block: 'nearest' })
  }
  const show = (found: readonly Offer[], text: string) => {
    if (found.length === 0) return close()
    offers = found
    foundFor = text
    active = -1
    list.replaceChildren(
      ...found.map((offer) =>
        el(
          'div',
          {
            id: freshId(),
            role: 'option',
            'aria-selected': 'false',
            pointerdown: (event) => event.preventDefault(),
            click: () => pick(offer),
          },
          el('b', {}, offer.label),
          offer.detail === undefined ? null : el('span', {}, offer.detail),
        ),
      ),
    )
    list.hidden = false
    list.scrollTop = 0
    input.setAttribute('aria-expanded', 'true')
  }
  const look = () => {
    clearTimeout(timer)
    timer = window.setTimeout(async () => {
      asked += 1
      const mine = asked
      // Without an answer there is nothing to offer, and typing goes on.
      const text = input.value
      const found = await find(text).catch(() => [])
      if (mine === asked && document.activeElement === input) show(found, text)
    }, PAUSE_MS)
  }

  const isFresh = () => !list.hidden && foundFor === input.value
  const takeFirst = async () => {
    const [first] = isFresh() ? offers : await find(input.value).catch(() => [])
    pick(first)
  }

  input.addEventListener('input', () => {
    active = -1
    look()
  })
  input.addEventListener('blur', close)
  input.addEventListener('keydown', (event) => {
    if (event.key === 'ArrowDown' && !isFresh()) look()
    else if (event.key === 'ArrowDown') walk(active + 1)
    else if (event.key === 'ArrowUp' && !list.hidden) walk(active < 0 ? -1 : active - 1)
    else if (event.key === 'Escape' && !list.hidden) close()
    else if (event.key === 'Enter' && active >= 0) pick(offers[active])
    else if (event.key === 'Enter' && !list.hidden && takesFirst?.(input.value)) void takeFirst()
    else return
    event.preventDefault()
    event.stopPropagation()
  })
  return { close }
}
