import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import type { Plot } from '#src/store/plots.ts'
import type { KeptVisits } from '#src/store/visits.ts'
import type { Application } from './application.ts'
import { findNumbered } from './find-record.ts'

/** What the choices of a look carry: the visits that it belongs to, by their id. */
export const AtVisit = z.strictObject({ visit: z.int() })

/** The visits of one application with all that was marked for them. */
export interface OpenVisits {
  readonly visits: KeptVisits
  readonly application: Application
  readonly plots: readonly Plot[]
}

export type FoundVisits =
  | { readonly ok: true; readonly value: OpenVisits }
  | { readonly ok: false; readonly ask: Answer }

export async function openVisit(id: number, tools: Pick<Tools, 'store'>): Promise<FoundVisits> {
  const visits = await tools.store.visits.get(id)
  if (visits === undefined || visits.recordNumber === null) return gone
  const found = await findNumbered(visits.recordNumber, tools)
  if (!found.ok) return found
  const plots = await tools.store.plots.list(visits.recordNumber)
  return { ok: true, value: { visits, application: found.value, plots } }
}

const gone: FoundVisits = {
  ok: false,
  ask: {
    reply: reply('refusal', say('visits.gone'), { audience: 'person', safety: { about: ['recheck'] } }),
  },
}
