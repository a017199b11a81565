import { addDays } from '#src/label/day.ts'
import type { CrewDays } from './place.ts'
import { placeWindow, pushWindow } from './place.ts'
import type { Look } from './plan.ts'

/** Looks in order and apart: each of the later ones begins after the one before it, where it has to. */
export function makeRoom(standing: readonly Look[], later: readonly Look[], crew: CrewDays): Look[] {
  const looks = [...standing]
  for (const look of later) looks.push(giveWay(look, looks.at(-1), crew))
  return looks
}

/** A look begins after the one before it, and keeps its day of visit where that still fits. */
function giveWay(look: Look, before: Look | undefined, crew: CrewDays): Look {
  if (before === undefined || look.from > before.to) return look
  const window = pushWindow(look, addDays(before.to, 1), 'cut')
  const placed = placeWindow(window.from, window.to, crew)
  const keepsDay = look.visitOn >= placed.from && look.visitOn <= placed.to
  return { ...look, ...placed, visitOn: keepsDay ? look.visitOn : placed.visitOn }
}
