/// <reference lib="dom" />
import type { PageWord } from '../page-words.ts'
import type { PageStart } from '../shapes.ts'

/** What the page was sent with: who sits here, the words of their language, the commands. */
export const start = JSON.parse(document.getElementById('start')?.textContent ?? '{}') as PageStart

/** A sentence of the page in the language of the person. */
export const word = (name: PageWord): string => start.words[name] ?? `[${name}]`
