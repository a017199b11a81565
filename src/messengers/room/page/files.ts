import type { Context } from 'hono'
import { z } from 'zod'
import type { Drawn } from '#src/messengers/draw.ts'
import type { Viewer } from './people.ts'
import { SHOWN_TYPES } from './picture-size.ts'
import type { Watching } from './stream.ts'

const Which = z.object({
  turn: z
    .string()
    .regex(/^\d{1,15}$/)
    .transform(Number),
  at: z
    .string()
    .regex(/^\d{1,2}$/)
    .transform(Number),
})

/** A picture or paper of an answer, drawn for whoever may see the answer. */
export async function sendFile({ bot }: Watching, context: Context, viewer: Viewer): Promise<Response> {
  const which = Which.safeParse(context.req.param())
  if (!which.success) return context.text('No such file', 404)
  const answered = await bot.desk.recall(which.data.turn, viewer.speaker)
  const file = answered?.reply.files[which.data.at]
  if (answered === null || file === undefined) return context.text('No such file', 404)
  const theme = context.req.query('theme') === 'dark' ? 'dark' : 'light'
  const options = {
    locale: viewer.locale,
    zone: answered.zone,
    mostBytes: Number.MAX_SAFE_INTEGER,
    theme,
  } as const
  for await (const drawn of bot.draw(file, options)) return bodyOf(context, drawn)
  return context.text('No such file', 404)
}

async function bodyOf(context: Context, drawn: Drawn): Promise<Response> {
  const isShown = SHOWN_TYPES.has(drawn.type) && context.req.query('save') === undefined
  const name = encodeURIComponent(drawn.name)
  context.header('content-security-policy', "default-src 'none'; sandbox")
  context.header('content-disposition', `${isShown ? 'inline' : 'attachment'}; filename*=UTF-8''${name}`)
  context.header('cache-control', 'private, max-age=300')
  return context.body(new Uint8Array(await drawn.read()), 200, { 'content-type': drawn.type })
}
