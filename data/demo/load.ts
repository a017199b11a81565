import type { z } from 'zod'
import { readBook } from '../../src/label/book.ts'
import type { KnownTaxa } from '../../src/label/check.ts'
import type { LabelEntry } from '../../src/label/entry.ts'
import { readData } from '../../src/project.ts'
import type { DemoPerson, DemoSite, DemoSprayer, DemoTreatment } from './schema.ts'
import { DemoConfirmations, DemoCrew, DemoPeople, DemoSites, DemoSprayers, DemoTreatments } from './schema.ts'

/** An invented crew: its people, places, tools, label book and a few past treatments. Nothing in it is real. */
export interface Demo {
  readonly crew: DemoCrew
  readonly people: readonly DemoPerson[]
  readonly sites: readonly DemoSite[]
  readonly sprayers: readonly DemoSprayer[]
  readonly book: readonly LabelEntry[]
  readonly confirmations: DemoConfirmations
  readonly treatments: readonly DemoTreatment[]
}

/**
 * Reads the demo crew. Days are counted back from the day it is set up.
 * @param taxa the plants that the key knows; when given, the label book may name no other
 * @throws Error that lists everything wrong with the files
 */
export function loadDemo(taxa?: KnownTaxa): Demo {
  return {
    crew: read('crew', DemoCrew),
    people: read('people', DemoPeople).people,
    sites: read('sites', DemoSites).sites,
    sprayers: read('sprayers', DemoSprayers).sprayers,
    book: readDemoBook(taxa),
    confirmations: read('confirmations', DemoConfirmations),
    treatments: read('treatments', DemoTreatments).treatments,
  }
}

/** When the entry of a product was last held against its label, in days before the demo is set up. */
export function confirmedDaysAgo({ entries, usualDaysAgo }: DemoConfirmations, product: string): number {
  return entries.find((entry) => entry.product === product)?.daysAgo ?? usualDaysAgo
}

function read<S extends z.ZodType>(name: string, schema: S): z.infer<S> {
  const parsed = schema.safeParse(JSON.parse(readData(`demo/${name}.json`)))
  if (parsed.success) return parsed.data
  throw new Error(`Cannot use data/demo/${name}.json: ${parsed.error.message}`)
}

function readDemoBook(taxa?: KnownTaxa): readonly LabelEntry[] {
  const book = readBook(readData('demo/label-book.json'), taxa)
  if (book.ok) return book.value
  const problems = book.error.map(({ row, name, path, id }) => `row ${row} (${name}), ${path}: ${id}`)
  throw new Error(`Cannot use data/demo/label-book.json: ${problems.join('; ')}`)
}
