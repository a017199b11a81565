/// <reference lib="dom" />
import type { PageAnswer, PageNews } from '../shapes.ts'
import { openCommands } from './book.ts'
import { wireClock } from './clock.ts'
import { byId } from './dom.ts'
import { wireLine } from './line.ts'
import { addEntries, closeTurns, focusEntry, startSheet } from './sheet.ts'
import { word } from './start.ts'
import { listen } from './stream.ts'
import { wireTour } from './tour.ts'

const lost = byId('lost', HTMLElement)
const time = byId('time', HTMLElement)
const day = byId('day', HTMLElement)
const line = byId('line', HTMLInputElement)

/** Shows what this window asked for; who typed it keeps on typing, who pressed goes on at the answer. */
function show({ entries }: PageAnswer): void {
  addEntries(entries, { show }, { isOwn: true, isQuiet: false })
  if (document.activeElement !== line && document.querySelector('dialog[open]') === null)
    focusEntry(entries.at(-1)?.turn ?? null)
}

function hear(news: PageNews): void {
  if (news.isStart) startSheet()
  addEntries(news.entries, { show }, { isOwn: false, isQuiet: news.isStart })
  closeTurns(news.closed)
  // Tells whoever tests it that the stream has come.
  byId('main', HTMLElement).dataset.live = 'yes'
  ;[time.textContent, day.textContent] = news.now
}

startSheet()
wireLine(show)
wireClock(show)
wireTour(show)
byId('commands', HTMLButtonElement).addEventListener('click', () => openCommands(show))
listen(hear, (isLost) => {
  lost.textContent = isLost ? word('lost') : ''
  lost.hidden = !isLost
})
