import type { ColumnType, Generated } from 'kysely'

type Id = Generated<number>
/** Canonical JSON text, parsed by a schema on the way out and never queried. */
type Json = string
/** A decimal as text: summed in the program, never in the database. */
type Decimal = string
type Flag = number
type Day = string
/** Set once when the row is made. */
type Once<T> = ColumnType<T, T, never>

export interface Tables {
  meta: { name: string; value: string }
  crews: {
    id: Id
    key: Once<string>
    name: string
    language: string
    zone: string
    state: string | null
    settings: Json
    /** Rises with every change of names that autocomplete offers. */
    bookRevision: Generated<number>
    answers: Generated<number>
    demo: Flag
    createdAtMs: Once<number>
  }
  people: {
    id: Id
    crewId: Once<number>
    key: Once<string>
    name: string
    language: string | null
    role: string
    /** The messenger's word, at this person's last request in the crew, that they lead it. */
    leadsByMessenger: Flag
    /** Where in the crew this person was last heard. */
    lastChannelKey: string | null
    settings: Json
    removedAtMs: number | null
    createdAtMs: Once<number>
  }
  turns: {
    id: Id
    crewId: Once<number>
    /** The request's own id: one request is answered once. */
    requestId: Once<string>
    number: number
    personId: Once<number>
    command: string
    asked: Once<Json>
    outcome: string
    reply: Json
    state: Json | null
    closedBy: string | null
    createdAtMs: Once<number>
    /** The plain day in the crew's zone, for filtering. */
    day: Once<Day>
  }
  files: {
    id: Id
    crewId: Once<number>
    blob: Once<string>
    name: string
    type: string
    bytes: number
    about: string
    aboutId: number
    createdAtMs: Once<number>
  }
  sites: {
    id: Id
    crewId: Once<number>
    name: string
    address: string
    details: Json
    retiredAtMs: number | null
    createdAtMs: Once<number>
  }
  areas: {
    id: Id
    crewId: Once<number>
    siteId: Once<number>
    name: string
    squareFeet: Decimal
    details: Json
    retiredAtMs: number | null
    createdAtMs: Once<number>
  }
  sprayers: {
    id: Id
    crewId: Once<number>
    name: string
    details: Json
    retiredAtMs: number | null
    createdAtMs: Once<number>
  }
  calibrations: {
    id: Id
    crewId: Once<number>
    sprayerId: Once<number>
    personId: Once<number>
    setup: string
    output: Json
    details: Json
    measuredOn: Day
    voidedAtMs: number | null
    createdAtMs: Once<number>
  }
  sprayerEvents: {
    id: Id
    crewId: Once<number>
    sprayerId: Once<number>
    personId: Once<number>
    turnId: number | null
    kind: string
    details: Json
    atMs: Once<number>
  }
  labelEntries: {
    id: Id
    crewId: Once<number>
    name: string
    liveRevisionId: number | null
    confirmedOn: Day | null
    retiredAtMs: number | null
    createdAtMs: Once<number>
  }
  labelRevisions: {
    id: Id
    crewId: Once<number>
    entryId: Once<number>
    revision: Once<number>
    body: Once<Json>
    status: string
    enteredBy: Once<number>
    confirmedBy: number | null
    createdAtMs: Once<number>
  }
  treatments: {
    id: Id
    crewId: Once<number>
    areaId: Once<number>
    entryId: Once<number>
    revisionId: Once<number>
    personId: Once<number>
    details: Once<Json>
    treatedOn: Once<Day>
    voidedAtMs: number | null
    createdAtMs: Once<number>
  }
  refusedRates: {
    id: Id
    crewId: Once<number>
    personId: Once<number>
    product: Once<string>
    rate: Once<string>
    atMs: Once<number>
  }
  holdLifts: {
    id: Id
    crewId: Once<number>
    entryId: Once<number>
    areaId: Once<number>
    day: Once<Day>
    personId: Once<number>
    reason: Once<string>
    createdAtMs: Once<number>
  }
  incidents: {
    id: Id
    crewId: Once<number>
    personId: Once<number>
    turnId: Once<number>
    words: Once<string>
    closedAtMs: number | null
    closedBy: number | null
    createdAtMs: Once<number>
  }
  deliveries: {
    id: Id
    crewId: Once<number>
    personId: number | null
    command: Once<string>
    reply: Once<Json>
    nonce: Once<string>
    dueAtMs: number
    claimedUntilMs: number | null
    sentAtMs: number | null
    /** Since when somebody may have seen it without our knowing; null while nobody can have. */
    triedAtMs: number | null
    createdAtMs: Once<number>
  }
  walks: {
    id: Id
    crewId: Once<number>
    number: Once<number>
    personId: Once<number>
    siteId: number | null
    areaId: number | null
    status: string
    body: Json
    changedAtMs: number
    createdAtMs: Once<number>
  }
  plantFlags: {
    id: Id
    crewId: Once<number>
    walkId: Once<number>
    turnId: Once<number>
    personId: Once<number>
    status: string
    note: string
    name: string | null
    taxon: string | null
    namedBy: number | null
    namedAtMs: number | null
    createdAtMs: Once<number>
  }
  mixes: {
    id: Id
    crewId: Once<number>
    number: Once<number>
    personId: Once<number>
    body: Once<Json>
    closedAs: string | null
    closedAtMs: number | null
    createdAtMs: Once<number>
  }
  drafts: {
    id: Id
    crewId: Once<number>
    personId: Once<number>
    mixId: number | null
    status: string
    body: Json
    changedAtMs: number
    createdAtMs: Once<number>
  }
  /** Never updated: what has been written stays, and every change is a further link. */
  chainLinks: {
    id: Id
    crewId: Once<number>
    seq: Once<number>
    kind: Once<string>
    recordNumber: Once<number>
    body: Once<Json>
    previous: Once<string>
    hash: Once<string>
    createdAtMs: Once<number>
  }
  /** Rows may be deleted: the chain holds only commitments to them. */
  personalValues: {
    id: Id
    crewId: Once<number>
    linkId: Once<number>
    path: Once<string>
    salt: Once<string>
    value: Once<Json>
    createdAtMs: Once<number>
  }
  /** What records are found by, as they stand after their amendments. */
  records: {
    id: Id
    crewId: Once<number>
    number: Once<number>
    linkId: Once<number>
    personId: Once<number>
    siteId: number | null
    areaId: number | null
    mixId: number | null
    drawn: Json | null
    appliedOn: Day | null
    complete: Flag
    withinLabel: string
    late: Flag
    treatments: Json
    voidedAtMs: number | null
    createdAtMs: Once<number>
  }
  recordProducts: {
    id: Id
    crewId: Once<number>
    recordId: Once<number>
    name: Once<string>
  }
  visits: {
    id: Id
    crewId: Once<number>
    recordNumber: Once<number | null>
    walkId: Once<number | null>
    siteId: number | null
    areaId: number | null
    ownerId: number
    plan: Json
    untreated: string
    /** Day of the first look that is still open; null when none is. */
    openOn: Day | null
    changedAtMs: number
    createdAtMs: Once<number>
  }
  plots: {
    id: Id
    crewId: Once<number>
    recordNumber: Once<number>
    areaId: Once<number | null>
    kind: Once<string>
    flag: Once<string>
    body: Once<Json>
    personId: Once<number>
    createdAtMs: Once<number>
  }
  ratings: {
    id: Id
    crewId: Once<number>
    visitId: Once<number>
    lookId: Once<string | null>
    personId: Once<number>
    ratedOn: Once<Day>
    body: Once<Json>
    createdAtMs: Once<number>
  }
  /** Never updated but to be voided. */
  stockMovements: {
    id: Id
    crewId: Once<number>
    personId: Once<number>
    product: Once<string>
    kind: Once<string>
    amount: Once<Json>
    atMs: Once<number>
    lot: Once<string | null>
    recordNumber: Once<number | null>
    version: Once<number | null>
    place: Once<number | null>
    voidedAtMs: number | null
    createdAtMs: Once<number>
  }
}
