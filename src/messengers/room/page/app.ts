import { type Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { HTTPException } from 'hono/http-exception'
import { streamSSE } from 'hono/streaming'
import { z } from 'zod'
import { dayIn } from '#src/desk/clock.ts'
import { MOST_FILE_BYTES } from '#src/desk/take-files.ts'
import { complete } from '../complete.ts'
import { type Asking, answerPage, Sent } from './ask.ts'
import type { Assets } from './assets.ts'
import { commandsFor } from './commands.ts'
import { sendFile } from './files.ts'
import { guard, type Place, SIGN_IN, setHeaders } from './guard.ts'
import type { Hub } from './hub.ts'
import { inWordsOf } from './in-words.ts'
import { pageWords } from './page-words.ts'
import { listPeople, type Viewer, viewerOf } from './people.ts'
import type { Door } from './secret.ts'
import { roomPage, signInPage, whoPage } from './shell.ts'
import { newsFor, sayNow, type Told } from './stream.ts'
import { tourFor } from './tour.ts'

export interface AppParts extends Asking {
  readonly hub: Hub
  readonly assets: Assets
  readonly icon: string
  readonly place: Place
  readonly door: Door
  readonly zone: string
  /** Ends every open stream. */
  readonly ended: AbortSignal
}

const MOST_BODY_BYTES = 128 * 1024
const HEARTBEAT_MS = 15_000
const MOST_STREAMS = 60
/** How long a browser waits before it asks for the stream again. */
const RETRY_MS = 1000

/** The page's whole server: who may ask, what there is to ask for. */
export function pageApp(parts: AppParts): Hono {
  const { bot, demo, door, zone, token } = parts
  const app = new Hono()
  let streams = 0

  app.use(async (context, next) => {
    setHeaders(context)
    await next()
  })
  app.use(guard(parts.place, token))
  app.onError((error, context) => {
    if (error instanceof HTTPException) return error.getResponse()
    bot.reportError(error, { about: 'the practice page', path: context.req.path })
    setHeaders(context)
    return context.text('Something broke here', 500)
  })

  app.get('/assets/style.css', (context) =>
    context.body(parts.assets.style, 200, { 'content-type': 'text/css' }),
  )
  app.get('/assets/icon.svg', (context) => context.body(parts.icon, 200, { 'content-type': 'image/svg+xml' }))
  app.get('/assets/script.js', (context) =>
    context.body(parts.assets.script, 200, { 'content-type': 'text/javascript' }),
  )
  app.post(SIGN_IN, bodyLimit({ maxSize: 4096 }), async (context) => {
    const { secret } = await context.req.parseBody()
    if (door.tryIn(context, typeof secret === 'string' ? secret : '')) return context.redirect('/', 303)
    return context.html(signInPage(bot, zone, true), 403)
  })
  app.use(async (context, next) => {
    if (door.isIn(context)) return next()
    return context.req.path === '/'
      ? context.html(signInPage(bot, zone, false), 401)
      : context.text('Closed', 401)
  })

  app.get('/', async (context) => {
    const viewer = await viewerOf(bot, demo, context.req.query('as') ?? '')
    if (viewer === null) return context.html(whoPage(bot, zone, await listPeople(bot, demo)))
    const inWords = inWordsOf(bot.words, viewer.locale, viewer.crew.zone)
    const commands = commandsFor(bot, viewer)
    return context.html(
      roomPage(
        bot,
        viewer,
        {
          person: viewer.person.key,
          token,
          words: pageWords(inWords),
          commands,
          tour: tourFor(bot.registry, inWords, dayIn(viewer.crew.zone, parts.clock.peekMs())),
        },
        sayNow(parts, viewer),
      ),
    )
  })

  app.get('/events', (context) => {
    if (streams >= MOST_STREAMS) return context.text('Too many windows', 503)
    const told: Told = { turn: lastSeen(context), closed: new Set(), now: '' }
    const key = context.req.query('as') ?? ''
    return streamSSE(context, async (stream) => {
      streams += 1
      let isGone = false
      const end = () => {
        isGone = true
        parts.hub.poke()
      }
      stream.onAbort(end)
      parts.ended.addEventListener('abort', end)
      try {
        for (let isFirst = true; !isGone && !parts.ended.aborted; isFirst = false) {
          const woken = parts.hub.next(HEARTBEAT_MS)
          const news = await newsFor(parts, key, told)
          if (isFirst || news !== null)
            await stream.writeSSE({
              data: JSON.stringify(news),
              ...(told.turn === null ? {} : { id: String(told.turn) }),
              ...(isFirst ? { retry: RETRY_MS } : {}),
            })
          else await stream.write(': still here\n\n')
          await woken
        }
      } finally {
        streams -= 1
        parts.ended.removeEventListener('abort', end)
      }
    })
  })

  const body = bodyLimit({ maxSize: MOST_BODY_BYTES })
  const answering = <Data extends { readonly as: string }>(
    path: string,
    schema: z.ZodType<Data>,
    answer: (viewer: Viewer, sent: Data) => Promise<object>,
  ) =>
    app.post(path, body, async (context) => {
      const sent = schema.safeParse(await readJson(context))
      if (!sent.success) return context.text('Cannot read this', 400)
      return withViewer(parts, context, sent.data.as, async (viewer) =>
        context.json(await answer(viewer, sent.data)),
      )
    })
  answering('/ask', Sent, (viewer, sent) => answerPage(parts, viewer, sent))
  answering('/suggest', Suggesting, ({ speaker }, { as: _, ...asked }) =>
    bot.suggest({ by: speaker, ...asked }),
  )
  answering('/complete', Completing, async ({ speaker }, { line }) => {
    const [found, replaced] = await complete(bot, speaker, line)
    return { found: found.slice(0, 25), replaced }
  })

  app.post('/uploads', bodyLimit({ maxSize: MOST_FILE_BYTES }), async (context) => {
    const bytes = new Uint8Array(await context.req.arrayBuffer())
    const name = decodeName(context.req.header('x-file-name') ?? '')
    const type = context.req.header('content-type') ?? ''
    const upload = parts.uploads.keep({ name, type, bytes })
    return upload === null ? context.text('Too many files wait', 429) : context.json({ upload })
  })

  app.get('/files/:turn/:at', (context) =>
    withViewer(parts, context, context.req.query('as') ?? '', (viewer) => sendFile(parts, context, viewer)),
  )
  return app
}

const Suggesting = z.strictObject({
  as: z.string().max(40),
  command: z.string().max(80),
  option: z.string().max(80),
  typed: z.string().max(1000),
  options: z.record(z.string(), z.string()),
})
const Completing = z.strictObject({ as: z.string().max(40), line: z.string().max(9000) })

async function withViewer(
  { bot, demo }: AppParts,
  context: Context,
  key: string,
  answer: (viewer: Viewer) => Promise<Response>,
): Promise<Response> {
  const viewer = await viewerOf(bot, demo, key)
  return viewer === null ? context.text('Nobody of this crew', 404) : answer(viewer)
}

async function readJson(context: Context): Promise<unknown> {
  if (!/^application\/json\b/.test(context.req.header('content-type') ?? '')) return undefined
  try {
    return await context.req.json()
  } catch {
    return undefined
  }
}

/** The newest answer that a page shows when it comes back after a break. */
function lastSeen(context: Context): number | null {
  const given = context.req.header('last-event-id') ?? context.req.query('after') ?? ''
  return /^\d{1,15}$/.test(given) ? Number(given) : null
}

function decodeName(name: string): string {
  try {
    return decodeURIComponent(name).slice(0, 200)
  } catch {
    return 'file'
  }
}
