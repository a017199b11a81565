import { randomUUID } from 'node:crypto'
import type { Ask, Speaker } from '#src/conversation/ask.ts'
import { writeToken } from '#src/conversation/token.ts'
import type { Answered } from '#src/desk/desk.ts'

/** 2026-05-04, 9 in the morning in Chicago: a Monday in season. */
export const NOON_MS = Date.parse('2026-05-04T14:00:00Z')

/** Ada, of the invented crew of the tests. */
export function speaker(parts: Partial<Speaker> = {}): Speaker {
  return {
    crewKey: 'test:1',
    crewName: 'Test crew',
    personKey: 'ada',
    personName: 'Ada Test',
    runsServer: false,
    roles: [],
    locale: 'en',
    crewLocale: 'en',
    channelKey: 'channel',
    ...parts,
  }
}

export const ada = speaker()
export const ben = speaker({ personKey: 'ben', personName: 'Ben Test' })
export const lead = speaker({ personKey: 'lea', personName: 'Lea Test', runsServer: true })
export const stranger = speaker({ crewKey: 'test:2', crewName: 'Other crew', personKey: 'sid' })

type Base = Partial<Pick<Ask, 'id' | 'by' | 'atMs'>>
const base = (parts: Base) => ({ id: randomUUID(), by: ada, atMs: NOON_MS, ...parts })

export function run(
  command: string,
  options: Extract<Ask, { kind: 'run' }>['options'] = {},
  parts: Base = {},
): Ask {
  return { kind: 'run', ...base(parts), command, options }
}

/** A press of choice 1, 2 … of an answer. */
export function press(answered: Answered, choice: number | 'form', parts: Base = {}): Ask {
  return { kind: 'press', ...base(parts), token: tokenOf(answered, choice) }
}

export function submit(
  answered: Answered,
  fields: Extract<Ask, { kind: 'submit' }>['fields'],
  parts: Base = {},
): Ask {
  return { kind: 'submit', ...base(parts), token: tokenOf(answered, 'form'), fields }
}

export function tokenOf({ turnId }: Answered, choice: number | 'form'): string {
  if (turnId === null) throw new RangeError('Cannot press an answer that is not kept')
  return writeToken({ turnId, choice })
}
