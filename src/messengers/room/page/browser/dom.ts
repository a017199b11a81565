/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
/// <reference lib="dom.asynciterable" />

type Child = Node | string | null
type Attributes = Readonly<Record<string, string | number | boolean | null | ((event: Event) => void)>>

/** Builds an element. Text becomes text and nothing else: whatever stands in it, no markup comes of it. */
export function el<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Attributes = {},
  ...children: readonly (Child | readonly Child[])[]
): HTMLElementTagNameMap[Name] {
  const made = document.createElement(name)
  for (const [key, value] of Object.entries(attributes)) {
    if (typeof value === 'function') made.addEventListener(key, value)
    else if (value === true) made.setAttribute(key, '')
    else if (value !== false && value !== null) made.setAttribute(key, String(value))
  }
  made.append(...children.flat().filter((child) => child !== null))
  return made
}

/** The element with this id, of this kind. */
export function byId<Kind extends HTMLElement>(id: string, kind: new () => Kind): Kind {
  const found = document.getElementById(id)
  if (found instanceof kind) return found
  throw new Error(`Cannot find #${id}`)
}

let made = 0
export const freshId = (): string => {
  made += 1
  return `id-${made}`
}
