import type { LogField } from './field.ts'
import * as ground from './ground.ts'
import * as people from './people.ts'
import * as place from './place.ts'
import * as product from './product.ts'
import * as safety from './safety.ts'
import * as tank from './tank.ts'
import * as weather from './weather.ts'
import * as when from './when.ts'

/** Every field of the log's short forms by its name, which is the name under which the rules ask for it. */
export const logFields: Readonly<Record<string, LogField>> = {
  product: product.product,
  registration: product.registration,
  amount: product.amount,
  rate: product.rate,
  targets: product.targets,
  date: when.date,
  startedAt: when.startedAt,
  endedAt: when.endedAt,
  place: place.place,
  placeWords: place.placeWords,
  notes: place.notes,
  site: place.site,
  coverage: ground.coverage,
  sameGround: ground.sameGround,
  treatedArea: place.treatedArea,
  areaBasis: place.areaBasis,
  county: place.county,
  windSpeed: weather.windSpeed,
  windFrom: weather.windFrom,
  temperature: weather.temperature,
  humidityPercent: weather.humidityPercent,
  rain: weather.rain,
  inversion: weather.inversion,
  mixDrawn: tank.mixDrawn,
  method: tank.method,
  totalMix: tank.totalMix,
  carrier: tank.carrier,
  recipe: tank.recipe,
  adjuvants: tank.adjuvants,
  leftoverFate: tank.leftoverFate,
  mixingPlace: tank.mixingPlace,
  siteOrder: tank.siteOrder,
  droplets: tank.droplets,
  fertilizer: safety.fertilizer,
  applicator: people.applicator,
  license: people.license,
  supervisor: people.supervisor,
  training: people.training,
  helpers: people.helpers,
  customerName: people.customerName,
  customerAddress: place.customerAddress,
  company: people.company,
  ppe: safety.ppe,
  keepOff: safety.keepOff,
  keepOffUntil: safety.keepOffUntil,
  customerTold: safety.customerTold,
  posting: safety.posting,
  notices: safety.notices,
}

/** @throws RangeError for a name that no form has */
export function logField(name: string): LogField {
  const found = logFields[name]
  if (found === undefined) throw new RangeError(`Cannot find a field "${name}" of the log`)
  return found
}
