import { type Answer, type Event, StaleState, type Tools } from '#src/desk/command.ts'
import { askHandOver, askMove, askSkip, handed, looked, moved, skipped } from './change-look.ts'
import { listLooks } from './due-list.ts'
import { historyPaper, showHistory } from './history.ts'
import { keepRating } from './keep-rating.ts'
import { showLook } from './look-card.ts'
import { AtVisit } from './open-visit.ts'

const STEPS: Readonly<Record<string, (event: Event, tools: Tools) => Promise<Answer>>> = {
  list: (_event, tools) => listLooks({}, tools),
  open: (event, tools) => showLook(AtVisit.parse(event.value).visit, tools),
  rated: keepRating,
  looked,
  move: askMove,
  moved,
  'hand-over': askHandOver,
  handed,
  skip: (event) => askSkip(event),
  skipped,
  paper: (event, tools) => historyPaper(AtVisit.parse(event.value).visit, tools),
  history: (event, tools) => showHistory(AtVisit.parse(event.value).visit, tools),
}

/** What each press on a look does. Its value says which look; nothing else is remembered. */
export async function nextLook(event: Event, tools: Tools): Promise<Answer> {
  const work = STEPS[event.step]
  if (work === undefined) throw new StaleState(`Cannot go on with a look: no step ${event.step}`)
  return work(event, tools)
}
