import type { Tools } from '#src/desk/command.ts'
import type { Season } from '#src/label/rate-line.ts'
import { type AllowSettings, allowDefaults, type Situation } from '#src/label/situation.ts'
import { plantName, taxonByName } from '#src/plants.ts'
import { parseQuantity } from '#src/quantity/parse.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { Output, Rate } from '#src/quantity/rate.ts'
import type { Crew } from '#src/store/crews.ts'
import type { Person } from '#src/store/people.ts'
import type { Area, Site } from '#src/store/sites.ts'
import { historyFrom, historyOf } from './history.ts'
import type { MixOptions } from './options.ts'
import type { Named } from './resolve.ts'

/** Everything about this ground, this day and these people that a label may have a word on. */
export async function situationOf(given: MixOptions, named: Named, tools: Tools): Promise<Situation> {
  const { area } = named
  const same = given.spots === undefined ? 'unknown' : given.spots === 'same'
  const treatments =
    area === null ? [] : await historyOf(tools.store, area.id, historyFrom(tools.today), same)
  return { ...(await situationBesideHistory(given, named, tools)), treatments }
}

/** The same without what was put on the ground before, for whoever knows better which ground that was. */
export async function situationBesideHistory(
  given: MixOptions,
  named: Named,
  tools: Tools,
): Promise<Omit<Situation, 'treatments'>> {
  const { today, crew } = tools
  const { product, site, area } = named
  const turfs = turfsOf(area, today)
  const weed = given.weed === undefined ? undefined : (taxonByName(given.weed)?.id ?? given.weed)
  const season = given.season ?? seasonOf(today)
  const names = [...turfs, ...(weed === undefined ? [] : [weed])]
  return {
    turfs: turfs.length === 0 ? 'unknown' : turfs,
    ...dormancyOf(given, area),
    names: Object.fromEntries(names.map((id) => [id, plantName(id, tools.locale)])),
    ...(weed === undefined ? {} : { weed }),
    season,
    ...(given.treatment === undefined ? {} : { treatment: given.treatment }),
    ...(given.line === undefined ? {} : { line: given.line }),
    ...(given.mowings === undefined ? {} : { mowings: given.mowings }),
    ...(stateOf(site, crew) === null ? {} : { state: stateOf(site, crew) ?? '' }),
    ...waterOf(given, site),
    ...(isProduction(area) ? { production: true } : {}),
    licensed: await isCovered(tools),
    today,
    lastConfirmedOn: product?.confirmedOn ?? null,
    ...(area?.details.seededOn == null ? {} : { seededOn: area.details.seededOn }),
    ...(area?.details.soddedOn == null ? {} : { soddedOn: area.details.soddedOn }),
  }
}

/** The same situation with the amount that is about to go on. */
export function withRate(
  situation: Situation,
  rate: Rate,
  output: Output | undefined,
  more: { readonly adjuvant?: boolean; readonly temperature?: Quantity | undefined } = {},
): Situation {
  return {
    ...situation,
    rate,
    ...(output === undefined ? {} : { output }),
    ...(more.adjuvant === undefined ? {} : { adjuvant: more.adjuvant ? 'with' : 'without' }),
    ...(more.temperature === undefined ? {} : { conditions: { temperature: more.temperature } }),
  }
}

/** Days of the crew's own settings, for how long a label entry may be trusted. */
export function allowSettingsOf(crew: Crew): AllowSettings {
  return {
    ...allowDefaults,
    confirmEveryDays: crew.settings.labelConfirmDays,
    confirmNoteDays: crew.settings.labelNoteDaysBefore,
    confirmHoldDays: crew.settings.labelHoldDaysAfter,
  }
}

/** The permanent grasses, and an overseed while it lives. */
export function turfsOf(area: Area | null, today: string): string[] {
  if (area === null) return []
  const { turfs, overseed } = area.details
  const lives = overseed !== null && (overseed.until === null || overseed.until >= today)
  return [...turfs, ...(lives && overseed !== null ? [overseed.turf] : [])]
}

/** Meteorological seasons of the northern half. */
export function seasonOf(day: string): Season {
  const month = Number(day.slice(5, 7))
  if (month <= 2 || month === 12) return 'winter'
  if (month <= 5) return 'spring'
  return month <= 8 ? 'summer' : 'fall'
}

/** Only the permanent grass sleeps: an overseed is there because it is green. What nobody said is not guessed. */
function dormancyOf(given: MixOptions, area: Area | null): Pick<Situation, 'dormant'> {
  if (given.dormant === false) return { dormant: [] }
  const sleeps = given.dormant === true || area?.details.dormant === true
  if (!sleeps) return {}
  return { dormant: area === null ? 'all' : area.details.turfs }
}

/** As it was typed; where only the site's notes speak of water, nobody knows how near it is to this area. */
function waterOf(given: MixOptions, site: Site | null): Pick<Situation, 'water'> {
  if (given.water !== undefined) {
    if (NO_WATER.test(given.water)) return { water: 'none' }
    const read = parseQuantity(given.water, { expect: 'length' })
    return { water: read.ok ? read.value : 'unknown' }
  }
  return site === null || site.details.water.trim() === '' ? {} : { water: 'unknown' }
}

const NO_WATER = /^\s*(no|none|ninguna|sin)(\s+(water|agua))?\s*$/i

/** Ground on which plants are grown to be sold: rules for workers hold there that no lawn has. */
function isProduction(area: Area | null): boolean {
  return area !== null && PRODUCTION.test(area.details.use)
}

const PRODUCTION =
  /\b(sod|turf) (farm|field)|\bnurser(y|ies)\b|\bgreenhouses?\b|\bviveros?\b|\binvernaderos?\b/i

/** Two letters before the ZIP of the address; else where the crew works. */
export function stateOf(site: Site | null, crew: Crew): string | null {
  return /\b([A-Z]{2})\s+\d{5}(-\d{4})?\s*$/.exec(site?.address ?? '')?.[1] ?? crew.state
}

export function hasLicense(person: Person, today: string): boolean {
  return person.settings.license !== null && person.settings.license.expiresOn >= today
}

/** Licensed, or working in a crew whose lead is. */
export async function isCovered({
  person,
  store,
  today,
}: Pick<Tools, 'person' | 'store' | 'today'>): Promise<boolean> {
  if (hasLicense(person, today)) return true
  return (await store.people.leads()).some((lead) => hasLicense(lead, today))
}
