import { Locale, OverwriteType } from 'discord-api-types/v10'
import { z } from 'zod'

/** Bodies of the control routes. Files carry their bytes as base64. */
const file = z
  .strictObject({ name: z.string().min(1), base64: z.base64(), contentType: z.string().optional() })
  .transform(({ name, base64, contentType }) => ({
    name,
    bytes: new Uint8Array(Buffer.from(base64, 'base64')),
    ...(contentType === undefined ? {} : { contentType }),
  }))

const place = {
  user: z.string().optional(),
  guild: z.string().optional(),
  channel: z.string().optional(),
  dm: z.boolean().optional(),
}

const options = z.record(z.string(), z.union([z.string(), z.number(), z.boolean(), file])).optional()

/** How long to wait for the bot, real ms; and whether to wait for the edit that follows a deferral. */
const waiting = {
  timeoutMs: z.number().int().min(1).max(60_000).default(5000),
  settle: z.boolean().default(false),
}

const slash = { ...place, name: z.string().min(1), options }
const use = { message: z.string(), customId: z.string(), user: z.string().optional() }

export const Slash = z.strictObject({ ...slash, ...waiting })
export const Autocomplete = z.strictObject({ ...slash, focused: z.string(), ...waiting })
export const Press = z.strictObject({ ...use, ...waiting })
export const Select = z.strictObject({ ...use, values: z.array(z.string()), ...waiting })
export const Modal = z.strictObject({
  customId: z.string().optional(),
  user: z.string().optional(),
  fields: z
    .record(z.string(), z.union([z.string(), z.boolean(), z.array(z.string()), z.array(file)]))
    .optional(),
  ...waiting,
})

export const ClockMove = z.strictObject({ advanceMs: z.number() })

export const GatewayAct = z.strictObject({
  act: z.enum(['drop', 'op7', 'op9', 'op9-resumable', 'stop-acks', 'resume-acks', 'close']),
  code: z.number().int().optional(),
  shard: z.number().int().optional(),
})

const named = {
  name: z.string().min(1),
  id: z
    .string()
    .regex(/^\d{17,20}$/)
    .optional(),
}
const bits = z.string().regex(/^\d+$/).optional()
const locale = z.enum(Object.values(Locale)).optional()
const overwrite = z.strictObject({
  id: z.string(),
  type: z.enum(OverwriteType),
  allow: z.string(),
  deny: z.string(),
})

/** A world in a file: users and guilds, permission bits as text. */
export const WorldFile = z.strictObject({
  users: z.array(z.strictObject({ ...named, locale, dmsClosed: z.boolean().optional() })),
  guilds: z.array(
    z.strictObject({
      ...named,
      locale,
      owner: z.string().optional(),
      everyone: bits,
      botPermissions: bits,
      outage: z.boolean().optional(),
      install: z.enum(['guild', 'user']).optional(),
      roles: z.array(z.strictObject({ ...named, permissions: bits })).optional(),
      channels: z.array(z.strictObject({ ...named, overwrites: z.array(overwrite).optional() })).optional(),
      members: z
        .array(
          z.strictObject({
            user: z.string(),
            roles: z.array(z.string()).optional(),
            nick: z.string().optional(),
          }),
        )
        .optional(),
    }),
  ),
})
