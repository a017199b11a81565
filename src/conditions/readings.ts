import { bareUnitsOf } from '#src/conversation/own-units.ts'
import type { Reader } from '#src/conversation/reader.ts'
import { sayDroplet } from '#src/conversation/say-droplet.ts'
import { say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { readDroplet } from '#src/label/read-droplet.ts'
import { amountIn, compareQuantities } from '#src/quantity/quantity.ts'
import type { Elevation } from '#src/store/elevation.ts'
import type { Site } from '#src/store/sites.ts'
import { pressureAtKPa } from '#src/weather/air.ts'
import { inversionSigns, type Readings, type Sun, type TurfState } from '#src/weather/readings.ts'
import { droplets as dropletNames } from './droplets.ts'
import type { ConditionsState } from './options.ts'

type Given = ConditionsState

/** What was typed and pressed, as readings. A temperature and a wind alone are in the person's own units. */
export function readingsOf(given: Given, read: Reader, tools: Tools, site: Site | null): Readings {
  const bare = bareUnitsOf(tools)
  const speed = (option: 'wind' | 'gust') =>
    read.quantity(option, given[option], { expect: 'speed', bareUnit: bare.speed, allowZero: true })
  const degrees = (option: 'temperature' | 'forecast_high') =>
    read.quantity(option, given[option], { expect: 'temperature', bareUnit: bare.temperature })
  const [wind, gust] = [speed('wind'), speed('gust')]
  if (wind !== undefined && gust !== undefined && compareQuantities(gust, wind) < 0)
    read.refuse('gust', say('conditions.gust-below-wind', { gust, wind }))
  return known({
    wind,
    gust,
    towards: given.toward === undefined ? undefined : [given.toward],
    temperature: degrees('temperature'),
    forecastHigh: degrees('forecast_high'),
    humidityPercent: readPercent(given.humidity, read),
    pressureKPa: pressureOf(site?.details.elevation ?? tools.crew.settings.elevation),
    rainInHours: given.rain_in,
    inversion: signsOf(given),
    sun: given.sun === undefined ? undefined : SUN[given.sun],
    droplets: readDroplets(given.droplets, read),
    turf: turfOf(given),
  })
}

/** Of the height of the site, else that at which the crew works; without one, sea level is taken. */
function pressureOf(elevation: Elevation | null): number | undefined {
  return elevation === null ? undefined : pressureAtKPa(amountIn(elevation, 'm').toNumber())
}

/** Without what nobody said. */
function known<T extends object>(all: { readonly [K in keyof T]: T[K] | undefined }): T {
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)) as T
}

/** A sun that is neither low nor down stands far from both of its ends. */
const FAR_MIN = 600
const SUN: Readonly<Record<NonNullable<Given['sun']>, Sun>> = {
  'just up': { sinceSunriseMin: 0 },
  high: { sinceSunriseMin: FAR_MIN, untilSunsetMin: FAR_MIN },
  'going down': { untilSunsetMin: 0 },
  down: { untilSunsetMin: 0 },
}

function turfOf(given: Given): TurfState {
  return known<TurfState>({
    drought: given.drought,
    greeningUp: given.greening_up,
    dormant: given.dormant,
    isNew: given.new_grass,
    mownDaysAgo: given.mown,
    mowInDays: given.mow_in,
    soaked: given.ground === 'soaked' ? true : undefined,
    frozenOrSnow: given.ground === 'frozen or snow' ? true : undefined,
    overTreeRoots: given.roots,
    waterInHours: given.water_in,
  })
}

/** Signs seen; "none" says that every one was looked for, and clouds that the sky is not clear. */
function signsOf(given: Given): Readings['inversion'] {
  const { sign, sky } = given
  const all = sign === 'none' ? Object.fromEntries(inversionSigns.map((one) => [one, false])) : {}
  const seen = sign === undefined || sign === 'none' ? {} : { [sign]: true }
  const clear = sky === undefined ? {} : { 'clear-sky': sky === 'clear' }
  const signs = { ...all, ...seen, ...clear, ...given['@signs'] }
  return Object.keys(signs).length === 0 ? undefined : signs
}

const PERCENT = /^(\d{1,3}(?:[.,]\d+)?)\s*%?$/

function readPercent(text: string | undefined, read: Reader): string | undefined {
  if (text === undefined) return undefined
  const found = PERCENT.exec(text.trim())?.[1]
  if (found !== undefined) return String(Number(found.replace(',', '.')))
  read.refuse('humidity', say('conditions.humidity', { text }))
  return undefined
}

function readDroplets(text: string | undefined, read: Reader): string | undefined {
  if (text === undefined) return undefined
  const name = readDroplet(text)
  if (name !== undefined) return name
  const allowed = { all: dropletNames.map(sayDroplet), join: 'or' } as const
  read.refuse('droplets', say('conditions.droplets', { text, allowed }))
  return undefined
}
