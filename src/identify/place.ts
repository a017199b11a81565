import { type Param, say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { TurfContext, Walk } from '#src/key/index.ts'
import { turfsOf } from '#src/mixing/situation.ts'
import { taxonById } from '#src/plants.ts'
import type { Area, Site } from '#src/store/sites.ts'
import type { WalkBody } from '#src/store/walks.ts'
import { foldAnswers } from './answers.ts'
import { sayPlant } from './words.ts'

/** Where the plant stands, and every grass that must not be taken for a weed there. */
export interface Place {
  readonly site: Site | null
  readonly area: Area | null
  readonly turf: TurfContext
}

/** The area's grasses, a living overseed among them, and whatever was typed besides. */
export async function placeOf(
  body: WalkBody,
  { store, today }: Pick<Tools, 'store' | 'today'>,
): Promise<Place> {
  const site = body.siteId === null ? null : ((await store.sites.get(body.siteId)) ?? null)
  const area = body.areaId === null ? null : ((await store.sites.getArea(body.areaId)) ?? null)
  const recorded = turfsOf(area, today).filter(isKnown)
  const turfs = [...new Set([...recorded, ...body.turfs.filter(isKnown)])]
  // A grass that the key does not know cannot be guarded: then any turf may be here.
  const isWhole = turfsOf(area, today).every(isKnown)
  if (turfs.length === 0 || !isWhole) return { site, area, turf: { kind: 'unknown' } }
  return { site, area, turf: { kind: recorded.length > 0 ? 'record' : 'typed', turfs } }
}

const isKnown = (id: string) => taxonById(id) !== undefined

/** The walk as the key weighs it. */
export function walkOf(body: WalkBody, { turf }: Place): Walk {
  return {
    turf,
    answers: foldAnswers(body.answers),
    mown: body.mown,
    ...(body.guess === null ? {} : { guess: body.guess.ids }),
  }
}

export const guardedOf = ({ turf }: Place): readonly string[] => (turf.kind === 'unknown' ? [] : turf.turfs)

/** "Ospelwick School, Soccer field", as far as it is known. */
export function placeWords({ site, area }: Place): Param | null {
  if (site === null) return null
  return area === null ? site.name : say('identify.place', { site: site.name, area: area.name })
}

/** The grasses that are guarded here. */
export function turfWords(place: Place): Param {
  const turfs = guardedOf(place)
  return turfs.length === 0 ? say('area.turf-unknown') : { all: turfs.map(sayPlant) }
}
