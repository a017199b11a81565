import { z } from 'zod'
import { Json } from '#src/conversation/json.ts'

/**
 * The parts of an interaction that are read, as the gateway sends them (Discord developer docs,
 * interactions/receiving-and-responding). Unknown fields are ignored; a missing needed one makes the dispatch
 * malformed.
 */
const User = z.object({
  id: z.string(),
  username: z.string(),
  global_name: z.string().nullish(),
  bot: z.boolean().optional(),
})

const Member = z.object({
  user: User,
  nick: z.string().nullish(),
  roles: z.array(z.string()),
  permissions: z.string(),
})

const Attachment = z.object({
  id: z.string(),
  filename: z.string(),
  content_type: z.string().nullish(),
  size: z.number().int(),
  url: z.string(),
})

const Message = z.object({
  id: z.string(),
  flags: z.number().optional(),
  components: z.array(Json).default([]),
})

const base = {
  id: z.string().regex(/^\d{1,20}$/),
  application_id: z.string(),
  token: z.string().min(1),
  guild_id: z.string().optional(),
  guild_locale: z.string().optional(),
  channel_id: z.string().optional(),
  channel: z.object({ id: z.string() }).optional(),
  member: Member.optional(),
  user: User.optional(),
  locale: z.string().default('en-US'),
  attachment_size_limit: z.number().optional(),
  message: Message.optional(),
}

const resolved = z.object({ attachments: z.record(z.string(), Attachment).optional() }).optional()

const Option = z.object({
  name: z.string(),
  type: z.number(),
  value: z.union([z.string(), z.number(), z.boolean()]).optional(),
  focused: z.boolean().optional(),
  get options() {
    return z.array(Option).optional()
  },
})

const Command = z.object({
  name: z.string(),
  type: z.number().optional(),
  options: z.array(Option).default([]),
  resolved,
})

const Child = z.object({
  custom_id: z.string(),
  value: z.union([z.string(), z.boolean()]).nullish(),
  values: z.array(z.string()).optional(),
})

/** Types 2 and 4 are commands and their completion, 3 a button or menu, 5 a filled form. */
export const InteractionPayload = z.discriminatedUnion('type', [
  z.object({ ...base, type: z.literal(2), data: Command }),
  z.object({ ...base, type: z.literal(4), data: Command }),
  z.object({
    ...base,
    type: z.literal(3),
    data: z.object({ custom_id: z.string(), values: z.array(z.string()).default([]) }),
  }),
  z.object({
    ...base,
    type: z.literal(5),
    data: z.object({
      custom_id: z.string(),
      components: z.array(z.object({ component: Child.optional(), components: z.array(Child).optional() })),
      resolved,
    }),
  }),
])
export type InteractionPayload = z.infer<typeof InteractionPayload>
export type CommandOption = z.infer<typeof Option>
export type SentAttachment = z.infer<typeof Attachment>
export type SourceMessage = z.infer<typeof Message>
