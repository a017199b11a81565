import { z } from 'zod'

/** An incoming file as a handle; its bytes are fetched, sniffed and stored before the transaction begins. */
export const FileHandle = z.strictObject({
  name: z.string(),
  type: z.string(),
  bytes: z.number().int(),
  url: z.string(),
})
export type FileHandle = z.infer<typeof FileHandle>

/** A file that is kept: its content's hash is its name in the store. */
export const StoredFile = z.strictObject({
  blob: z.string(),
  name: z.string(),
  type: z.string(),
  bytes: z.number().int(),
})
export type StoredFile = z.infer<typeof StoredFile>

/** Who is speaking, as the messenger knows them. */
export const Speaker = z.strictObject({
  /** Which messenger and which server: data of one crew never mix with another's. */
  crewKey: z.string(),
  /** Null while the messenger has not told it. */
  crewName: z.string().nullable(),
  personKey: z.string(),
  personName: z.string(),
  /** The messenger's own word that this person runs the server. */
  runsServer: z.boolean(),
  roles: z.array(z.string()),
  locale: z.string(),
  crewLocale: z.string(),
  /** Where a shared reply would show; null in a direct message. */
  channelKey: z.string().nullable(),
})
export type Speaker = z.infer<typeof Speaker>

const OptionValue = z.union([z.string(), z.number(), z.boolean(), FileHandle])
export type OptionValue = z.infer<typeof OptionValue>

const base = { id: z.string().min(1).max(100), by: Speaker, atMs: z.number().int() }

/** Every request, whichever messenger it came from. `id` is the request's own: the same id is answered once. */
export const Ask = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('run'),
    ...base,
    command: z.string(),
    options: z.record(z.string(), OptionValue),
  }),
  z.strictObject({ kind: z.literal('press'), ...base, token: z.string() }),
  z.strictObject({
    kind: z.literal('submit'),
    ...base,
    token: z.string(),
    fields: z.record(z.string(), z.union([z.string(), z.array(z.string()), z.array(FileHandle)])),
  }),
])
export type Ask = z.infer<typeof Ask>

/** The command of a line that could not be read at all: answered and kept like any other. */
export const UNREADABLE = 'line'

/** Autocomplete: answered from memory, without transaction or record. */
export interface Suggest {
  readonly by: Speaker
  readonly command: string
  readonly option: string
  readonly typed: string
  readonly options: Readonly<Record<string, OptionValue>>
}
export interface Suggestion {
  readonly name: string
  readonly value: string
}
