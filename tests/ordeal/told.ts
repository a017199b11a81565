import type { Fired } from '#tests/discord-loopback/interactions/fired.ts'

/** A request as the platform saw it answered, with this text or not at all. */
export function fired(id: string, text: string | null): Fired {
  const data = { components: [{ type: 10, content: text }] }
  const response = text === null ? undefined : { type: 4, data }
  return { id, response, edits: [], followUps: [] } as unknown as Fired
}
