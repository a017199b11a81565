import { existsSync } from 'node:fs'
import path from 'node:path'
import { projectRoot } from './project.ts'
import type { Break, Head, KnownHead, Walk } from './record/chain.ts'
import { printHead, readHead, walkChain, walkEnd, walkStart } from './record/chain.ts'
import { sayBreak } from './record/words.ts'
import { addressOf, readSettings, SettingsError } from './settings.ts'
import { type CrewStore, crewStore } from './store/crew-store.ts'
import { listCrews } from './store/crews-of.ts'
import { WrongDatabase } from './store/migrate.ts'
import { type Database, type DatabaseAddress, openDatabase } from './store/open.ts'
import { readOnly } from './store/transaction.ts'
import type { Catalogue } from './words/catalogue.ts'
import { loadWords } from './words/load.ts'
import { speakForRecord } from './words/speak.ts'

/** Links that are read and held at a time. */
const PAGE_LINKS = 1000
/** A chain that was rewritten from its start breaks at every link: as many as this are told of one crew. */
const MOST_BREAKS = 100

/** What was found of one crew's chain. */
export interface CrewChain {
  /** The crew by its key; null for a head that no crew's chain reaches. */
  readonly crew: string | null
  readonly records: number
  readonly head: Head | null
  readonly breaks: readonly Break[]
}

/**
 * Walks every crew's chain, a page at a time.
 * @param options.against a head that was printed earlier; it belongs to one of the crews, whichever that is
 */
export async function verifyChains(
  database: Database,
  { against, rows = PAGE_LINKS }: { readonly against?: KnownHead; readonly rows?: number } = {},
): Promise<readonly CrewChain[]> {
  const crews = await readOnly(database, listCrews)
  const walked: { readonly crew: string; readonly walk: Walk; readonly records: number }[] = []
  for (const { id, key } of crews) {
    const page = (afterSeq: number) => readOnly(database, (db) => pageOf(crewStore(db, id), afterSeq, rows))
    walked.push({ crew: key, ...(await walkOf(page, against)) })
  }
  const chains = walked.map(({ crew, walk, records }): CrewChain => {
    // A head of another crew is no break of this one: it is looked for in all of them.
    const breaks = walk.breaks.slice(0, MOST_BREAKS)
    return { crew, records, head: walk.head, breaks }
  })
  if (against === undefined || walked.some(({ walk }) => walk.isMet)) return chains
  return [
    ...chains,
    {
      crew: null,
      records: 0,
      head: null,
      breaks: lostHead(
        walked.map(({ walk }) => walk),
        against,
      ),
    },
  ]
}

const pageOf = (store: CrewStore, afterSeq: number, rows: number) => store.records.pageLinks(afterSeq, rows)

async function walkOf(page: (afterSeq: number) => ReturnType<typeof pageOf>, against: KnownHead | undefined) {
  let walk: Walk = walkStart
  let records = 0
  for (;;) {
    const links = await page(walk.head?.seq ?? 0)
    if (links.length === 0) return { walk, records }
    records += links.filter(({ entry }) => entry.kind === 'record').length
    walk = walkChain(walk, links, against)
    walk = { ...walk, breaks: walk.breaks.slice(0, MOST_BREAKS) }
  }
}

/** No chain reaches the head: that of the one crew, or the longest, was cut or written anew. */
function lostHead(walks: readonly Walk[], against: KnownHead): readonly Break[] {
  const longest = walks.reduce(
    (best, walk) => ((walk.head?.seq ?? 0) > (best.head?.seq ?? 0) ? walk : best),
    walkStart,
  )
  return walkEnd({ ...longest, breaks: [], isMet: false }, against)
}

/** Arguments that cannot be used; the message says which can. */
class VerifyError extends Error {}

interface Wanted {
  readonly against: KnownHead | undefined
  readonly json: boolean
}

/** `--against HASH` and `--json`. @throws VerifyError for anything else */
function readWanted(args: readonly string[]): Wanted {
  let against: KnownHead | undefined
  let json = false
  for (let at = 0; at < args.length; at += 1) {
    const arg = args[at] ?? ''
    const [name = '', joined] = arg.split(/=(.*)/s)
    if (arg === '--json') json = true
    else if (name === '--against') {
      const text = joined ?? args[++at] ?? ''
      const read = readHead(text)
      if (read === null)
        throw new VerifyError(
          `Cannot check against "${text}": it must be a hash as papers print it, such as 142-3f0a…`,
        )
      against = read
    } else throw new VerifyError(`Cannot understand "${arg}": only --against HASH and --json are known`)
  }
  return { against, json }
}

/**
 * Checks the chains of the configured database, says where one breaks, and with `--json` ends with one JSON object.
 * @returns the exit status: 0 only when every chain holds
 */
export async function runVerify(
  args: readonly string[],
  environment: Readonly<Record<string, string | undefined>>,
  print: (line: string) => void = (line) => process.stdout.write(`${line}\n`),
): Promise<number> {
  try {
    const { against, json } = readWanted(args)
    const database = await openKept(addressFrom(environment))
    try {
      const chains = await verifyChains(database, against === undefined ? {} : { against })
      const words = loadWords()
      for (const chain of chains) for (const line of linesOf(chain, words)) print(line)
      if (chains.length === 0) print('holds   no crew has written anything here yet')
      const breaks = chains.flatMap(({ crew, breaks }) => breaks.map((one) => ({ crew, ...one })))
      const records = chains.reduce((sum, one) => sum + one.records, 0)
      if (json) print(JSON.stringify({ records, breaks }))
      return breaks.length === 0 ? 0 : 1
    } finally {
      await database.close()
    }
  } catch (error) {
    const expected = [VerifyError, SettingsError, WrongDatabase].some((kind) => error instanceof kind)
    if (!expected) throw error
    process.stderr.write(`${(error as Error).message}\n`)
    return 2
  }
}

function linesOf({ crew, records, head, breaks }: CrewChain, words: Catalogue): readonly string[] {
  const printed = head === null ? 'nothing kept yet' : printHead(head)
  const whose = crew === null ? 'the head given' : `${crew}: ${records} records, newest link ${printed}`
  const found = breaks.map((one) => {
    const paths = one.paths === undefined ? '' : ` (${one.paths.join(', ')})`
    return `BROKEN  ${crew ?? 'no crew'}: ${speakForRecord(words, sayBreak(one))}${paths}`
  })
  return [`${breaks.length === 0 ? 'holds ' : 'BROKEN'}  ${whose}`, ...found]
}

function addressFrom(environment: Readonly<Record<string, string | undefined>>): DatabaseAddress {
  return (
    readSettings(environment).database ??
    addressOf(`sqlite:${path.join(projectRoot(), '.data', 'swardhand.sqlite')}`)
  )
}

/** Opens what is there, live or for practice, and never makes a new database: an empty one would look sound. */
async function openKept(address: DatabaseAddress): Promise<Database> {
  if (address.engine === 'sqlite' && !existsSync(address.path))
    throw new VerifyError(`Cannot check ${address.path}: there is no such database`)
  try {
    return await openDatabase(address, 'live')
  } catch (error) {
    if (error instanceof WrongDatabase && error.message.includes('practice database'))
      return openDatabase(address, 'practice')
    throw error
  }
}
