import { deliveriesOf } from './deliveries.ts'
import { draftsOf } from './drafts.ts'
import { filesOf } from './files.ts'
import { holdLiftsOf } from './hold-lifts.ts'
import { incidentsOf } from './incidents.ts'
import { labelsOf } from './labels.ts'
import { mixesOf } from './mixes.ts'
import { peopleOf } from './people.ts'
import { plantFlagsOf } from './plant-flags.ts'
import { plotsOf } from './plots.ts'
import { ratingsOf } from './ratings.ts'
import { recordsOf } from './records.ts'
import { refusedRatesOf } from './refused-rates.ts'
import { sitesOf } from './sites.ts'
import { sprayersOf } from './sprayers.ts'
import { stockOf } from './stock.ts'
import type { Transaction } from './transaction.ts'
import { treatmentsOf } from './treatments.ts'
import { turnsOf } from './turns.ts'
import { visitsOf } from './visits.ts'
import { walksOf } from './walks.ts'

/** Everything of one crew. Each statement carries the crew's id, so no crew ever reads another's rows. */
export function crewStore(db: Transaction, crewId: number) {
  return {
    people: peopleOf(db, crewId),
    turns: turnsOf(db, crewId),
    files: filesOf(db, crewId),
    sites: sitesOf(db, crewId),
    sprayers: sprayersOf(db, crewId),
    labels: labelsOf(db, crewId),
    treatments: treatmentsOf(db, crewId),
    refusedRates: refusedRatesOf(db, crewId),
    holdLifts: holdLiftsOf(db, crewId),
    incidents: incidentsOf(db, crewId),
    deliveries: deliveriesOf(db, crewId),
    walks: walksOf(db, crewId),
    plantFlags: plantFlagsOf(db, crewId),
    mixes: mixesOf(db, crewId),
    drafts: draftsOf(db, crewId),
    records: recordsOf(db, crewId),
    visits: visitsOf(db, crewId),
    plots: plotsOf(db, crewId),
    ratings: ratingsOf(db, crewId),
    stock: stockOf(db, crewId),
  }
}
export type CrewStore = ReturnType<typeof crewStore>
