import { addDays } from '#src/desk/clock.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { coversTurf, isInSeason, listsTurfs } from '#src/label/fitting.ts'
import { seasonOf, turfsOf } from '#src/mixing/situation.ts'
import { plantName } from '#src/plants.ts'
import type { Area } from '#src/store/sites.ts'
import type { Habits } from './habits.ts'
import type { Random } from './random.ts'

/** One mix that somebody of the crew wants. */
export interface PlannedMix {
  readonly day: string
  /** Key of the person. */
  readonly who: string
  readonly options: Readonly<Record<string, string>>
  /** Where it goes, also when the request does not say so. */
  readonly area: Area
  readonly product: string
  readonly sameGround: boolean
}

export interface Places {
  readonly areas: readonly { readonly site: string; readonly area: Area }[]
  readonly book: readonly LabelEntry[]
  /** Sprayers that each person uses, by the person's key. */
  readonly sprayers: Readonly<Record<string, readonly string[]>>
}

const WORKDAYS = 5

/** The mixes of one season, in order of their days. The same seed gives the same season. */
export function planSeason(places: Places, habits: Habits, random: Random): PlannedMix[] {
  const mixes: PlannedMix[] = []
  for (let week = 0; week < habits.weeks; week++)
    for (let count = 0; count < habits.mixesAWeek; count++) {
      const day = addDays(habits.firstDay, week * 7 + Math.floor((count * WORKDAYS) / habits.mixesAWeek))
      mixes.push(planMix(day, places, habits, random))
    }
  return mixes
}

const PARTS = ['1', '1', '1/2', '3/4', '1/4']

function planMix(day: string, places: Places, habits: Habits, random: Random): PlannedMix {
  const who = random.pick(Object.keys(places.sprayers))
  const { site, area } = random.pick(places.areas)
  const pairs = pairsFor(places.book, area, day)
  const { weed, entry } =
    pairs.length > 0 && random.chance(habits.looksUpProduct)
      ? random.pick(pairs)
      : anyPair(places.book, random)
  const typed = random.chance(habits.typesRate)
  const options: Record<string, string> = {
    ...(typed ? { rate: random.pick(random.pick(entry.rateLines).rates).high } : { product: entry.name }),
    sprayer: random.pick(places.sprayers[who] ?? []),
    ...(!typed && random.chance(habits.namesSite) ? { site, area: area.name } : {}),
    ...(!typed && random.chance(habits.namesWeed) ? { weed: plantName(weed, 'en') } : {}),
    ...(random.chance(habits.asksByGround)
      ? { ground: `${area.squareFeet} ft2` }
      : { tank: random.pick(PARTS) }),
  }
  return { day, who, options, area, product: entry.name, sameGround: random.chance(habits.sameGround) }
}

interface Pair {
  readonly weed: string
  readonly entry: LabelEntry
}

/** Weeds of this season with the products whose lines list them on every grass of the area. */
function pairsFor(book: readonly LabelEntry[], area: Area, day: string): Pair[] {
  const turfs = turfsOf(area, day)
  if (turfs.length === 0) return []
  return sprayed(book)
    .filter(({ excludedTurfs = [] }) => !turfs.some((turf) => coversTurf(excludedTurfs, turf)))
    .flatMap((entry) =>
      entry.rateLines
        .filter((line) => listsTurfs(line, turfs) && isInSeason(line, seasonOf(day)))
        .flatMap(({ weeds = [] }) => weeds.flatMap(({ taxa = [] }) => taxa))
        .map((weed) => ({ weed, entry })),
    )
}

function anyPair(book: readonly LabelEntry[], random: Random): Pair {
  const entry = random.pick(sprayed(book))
  const weeds = book.flatMap(({ rateLines }) => rateLines).flatMap((line) => line.weeds ?? [])
  return { entry, weed: random.pick(weeds.flatMap(({ taxa = [] }) => taxa)) }
}

/** A granule is not mixed, and everybody knows. */
const sprayed = (book: readonly LabelEntry[]) => book.filter(({ formulation }) => formulation !== 'G')
