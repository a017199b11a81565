import type { Kysely } from 'kysely'
import { type Break, printHead, type Walk, walkChain, walkEnd, walkStart } from '#src/record/chain.ts'
import { crewStore } from './crew-store.ts'
import type { Tables } from './tables.ts'

/** A crew's chain of records as it was found: how long, its newest hash as papers print it, and where it breaks. */
export interface ChainHead {
  readonly crew: string
  readonly links: number
  /** `142-3f0a…`; null while nothing is kept. */
  readonly head: string | null
  readonly breaks: readonly Break[]
}

const PAGE = 500

/** Walks the chain of every crew from its first link to its last. */
export async function chainHeads(db: Kysely<Tables>): Promise<ChainHead[]> {
  const crews = await db.selectFrom('crews').select(['id', 'key']).orderBy('id').execute()
  const heads: ChainHead[] = []
  for (const { id, key } of crews) {
    let walk: Walk = walkStart
    for (;;) {
      const page = await crewStore(db, id).records.pageLinks(walk.head?.seq ?? 0, PAGE)
      walk = walkChain(walk, page)
      if (page.length < PAGE) break
    }
    const { head } = walk
    heads.push({
      crew: key,
      links: head?.seq ?? 0,
      head: head === null ? null : printHead(head),
      breaks: walkEnd(walk),
    })
  }
  return heads
}
