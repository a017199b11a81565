import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { readRecordName, recordName } from '#src/record/number.ts'
import { type Application, findApplication } from './application.ts'

/** The application that somebody typed, or the refusal that says why there is none. */
export type FoundRecord =
  | { readonly ok: true; readonly value: Application }
  | { readonly ok: false; readonly ask: Answer }

export async function findTyped(text: string, tools: Pick<Tools, 'store'>): Promise<FoundRecord> {
  const number = readRecordName(text)
  if (number === null) return refused('visits.record-unreadable', text)
  return findNumbered(number, tools)
}

export async function findNumbered(number: number, tools: Pick<Tools, 'store'>): Promise<FoundRecord> {
  const found = await findApplication(number, tools)
  if (typeof found !== 'string') return { ok: true, value: found }
  return refused(`visits.record-${found}`, recordName(number))
}

function refused(id: string, record: string): FoundRecord {
  return {
    ok: false,
    ask: {
      reply: reply('refusal', say(id, { record }), { audience: 'person', safety: { about: ['records'] } }),
    },
  }
}
