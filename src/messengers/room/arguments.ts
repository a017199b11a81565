import { parseArgs } from 'node:util'

export interface RoomArguments {
  readonly json: boolean
  readonly database: string | null
  readonly startMs: number | null
  readonly as: string
  readonly locale: string
}

export class ArgumentError extends Error {}

/** `--json --database sqlite:PATH --at ISO-TIME --as lead|crew|NAME --locale en|es`. @throws ArgumentError */
export function readRoomArguments(args: readonly string[]): RoomArguments {
  const { values } = parse(args)
  const startMs = values.at === undefined ? null : Date.parse(values.at)
  if (startMs !== null && Number.isNaN(startMs))
    throw new ArgumentError(`Cannot read the time "${values.at}": write it as 2026-05-04T09:00:00-05:00`)
  return {
    json: values.json ?? false,
    database: values.database ?? null,
    startMs,
    as: values.as ?? 'crew',
    locale: values.locale ?? 'en',
  }
}

function parse(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      options: {
        json: { type: 'boolean' },
        database: { type: 'string' },
        at: { type: 'string' },
        as: { type: 'string' },
        locale: { type: 'string' },
      },
    })
  } catch (error) {
    throw new ArgumentError(error instanceof Error ? error.message : String(error))
  }
}
