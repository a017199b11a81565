/// <reference lib="dom" />
import type { PageEntry } from '../shapes.ts'
import { byId, el } from './dom.ts'
import { buildEntry, closeEntry, type EntryParts } from './entry.ts'
import { word } from './start.ts'

const sheet = byId('sheet', HTMLOListElement)
const main = byId('main', HTMLElement)
const told = byId('told', HTMLElement)
const shown = new Map<number, HTMLElement>()
/** Said lines are dropped after these many, or the page would grow for ever. */
const MOST_TOLD = 12

const emptySheet = el('li', { class: 'empty' }, word('sheet-empty'))

/** Forgets everything: another store is being looked at, or the page has just come. */
export function startSheet(): void {
  shown.clear()
  sheet.replaceChildren(emptySheet)
}

/** Adds answers that are not there yet, in the order of their numbers. */
export function addEntries(
  entries: readonly PageEntry[],
  parts: EntryParts,
  how: { readonly isOwn: boolean; readonly isQuiet: boolean },
): void {
  const wasAtEnd = main.scrollHeight - main.scrollTop - main.clientHeight < 80
  let first: HTMLElement | null = null
  for (const entry of entries) {
    const known = entry.turn === null ? undefined : shown.get(entry.turn)
    if (known !== undefined) {
      // The stream may be quicker than the answer to one's own request.
      first ??= known
      continue
    }
    const slip = buildEntry(entry, parts)
    if (entry.isClosed) closeEntry(slip)
    emptySheet.remove()
    place(slip, entry.turn)
    first ??= slip
    if (!how.isQuiet) tell(entry)
  }
  if (how.isQuiet) sheet.lastElementChild?.scrollIntoView({ block: 'start' })
  else if (how.isOwn || wasAtEnd) first?.scrollIntoView({ block: 'start' })
}

/** An answer may arrive by two ways at once: each stands where its number belongs. */
function place(slip: HTMLElement, turn: number | null): void {
  if (turn === null) {
    sheet.append(slip)
    return
  }
  shown.set(turn, slip)
  const next = [...sheet.children].find((other) => Number(other.getAttribute('data-turn') ?? 0) > turn)
  if (next === undefined) sheet.append(slip)
  else next.before(slip)
}

export function closeTurns(turns: readonly number[]): void {
  for (const turn of turns) {
    const slip = shown.get(turn)
    if (slip !== undefined) closeEntry(slip)
  }
}

/** Puts the focus on an answer, where its buttons were pressed or its form was sent. */
export function focusEntry(turn: number | null): void {
  const slip = turn === null ? sheet.lastElementChild : shown.get(turn)
  const head = slip?.querySelector('h2')
  head?.focus({ preventScroll: true })
}

/** The answer that `> 1` on a typed line is about. */
export function lastTurn(): number | null {
  return [...shown.keys()].reduce<number | null>(
    (most, turn) => (most === null || turn > most ? turn : most),
    null,
  )
}

function tell(entry: PageEntry): void {
  const text = [
    `${entry.by}: ${entry.word}.`,
    entry.figure ?? '',
    entry.title,
    ...entry.lines.slice(0, 4),
    ...entry.safety,
  ]
  told.append(el('p', {}, text.filter((one) => one !== '').join(' ')))
  while (told.children.length > MOST_TOLD) told.firstElementChild?.remove()
}
