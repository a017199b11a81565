import { type Ask, FileHandle } from '#src/conversation/ask.ts'
import { stripUnseen } from '#src/words/clean.ts'

/** The same request without what cannot be seen: NUL and half characters go no further than this. */
export function cleanAsk(ask: Ask): Ask {
  const by = {
    ...ask.by,
    crewName: ask.by.crewName === null ? null : stripUnseen(ask.by.crewName),
    personName: stripUnseen(ask.by.personName),
  }
  if (ask.kind === 'press') return { ...ask, by }
  if (ask.kind === 'run')
    return { ...ask, by, command: stripUnseen(ask.command), options: cleanAll(ask.options) }
  return { ...ask, by, fields: cleanAll(ask.fields) }
}

/** A file's handle stays as it is: its address must still be found, and its name is made safe when it is kept. */
function cleanAll<T>(values: Readonly<Record<string, T>>): Record<string, T> {
  return Object.fromEntries(
    Object.entries(values).map(([name, value]) => [stripUnseen(name), clean(value)]),
  ) as Record<string, T>
}

function clean(value: unknown): unknown {
  if (typeof value === 'string') return stripUnseen(value)
  return Array.isArray(value) && !value.some(isFile) ? value.map(clean) : value
}

const isFile = (value: unknown) => FileHandle.safeParse(value).success
