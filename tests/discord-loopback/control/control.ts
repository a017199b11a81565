import type { IncomingMessage } from 'node:http'
import { z } from 'zod'
import type { Fired } from '../interactions/fired.ts'
import type { People } from '../interactions/people.ts'
import type { Platform } from '../platform.ts'
import { type Answer, ok } from '../rest/answers.ts'
import { readBytes, type UploadedFile } from '../rest/body.ts'
import type { ExtraRoute } from '../rest/server.ts'
import { Autocomplete, ClockMove, GatewayAct, Modal, Press, Select, Slash } from './schemas.ts'
import { describeState } from './state.ts'

type Act = (body: unknown) => Promise<unknown> | unknown

interface Waits {
  timeoutMs: number
  settle: boolean
}

/** zod gives absent keys as `undefined`; the seeds want them gone. */
function dense<T extends object>(value: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(value).filter(([, each]) => each !== undefined)) as never
}

const describeFile = ({ name, contentType, bytes }: UploadedFile) => ({
  name,
  contentType,
  sizeBytes: bytes.length,
  base64: Buffer.from(bytes).toString('base64'),
})

/** What the bot answered, as JSON; with `settle`, after the edit that fills a deferred answer. */
async function outcome(fired: Fired, { timeoutMs, settle }: Waits) {
  const { type, data, files, message, afterMs } = await fired.firstResponse(timeoutMs)
  if (settle && message !== undefined) await fired.message(timeoutMs)
  return {
    interaction: fired.id,
    delivered: fired.delivered,
    type,
    data,
    files: files.map(describeFile),
    message: message ?? null,
    edits: fired.edits.map(({ body, files: more }) => ({ body, files: more.map(describeFile) })),
    followUps: fired.followUps.map(({ message: each }) => each),
    afterMs,
  }
}

function gatewayAct(platform: Platform, { act, code, shard }: z.infer<typeof GatewayAct>): void {
  const { gateway } = platform
  const acts: Record<typeof act, () => void> = {
    drop: () => gateway.dropSocket(shard),
    op7: () => gateway.sendOp7(shard),
    op9: () => gateway.sendOp9(false, shard),
    'op9-resumable': () => gateway.sendOp9(true, shard),
    'stop-acks': () => gateway.stopAcks(),
    'resume-acks': () => gateway.resumeAcks(),
    close: () => gateway.close(code ?? 4000, shard),
  }
  acts[act]()
}

function actsOf(platform: Platform, people: People): Record<string, Act> {
  return {
    'GET /control/state': () => describeState(platform),
    'POST /control/slash': (body) => {
      const { timeoutMs, settle, ...seed } = Slash.parse(body)
      return outcome(people.slash(dense(seed)), { timeoutMs, settle })
    },
    'POST /control/autocomplete': (body) => {
      const { timeoutMs, settle, ...seed } = Autocomplete.parse(body)
      return outcome(people.autocomplete(dense(seed)), { timeoutMs, settle })
    },
    'POST /control/press': (body) => {
      const { timeoutMs, settle, ...seed } = Press.parse(body)
      return outcome(people.press(dense(seed)), { timeoutMs, settle })
    },
    'POST /control/select': (body) => {
      const { timeoutMs, settle, ...seed } = Select.parse(body)
      return outcome(people.select(dense(seed)), { timeoutMs, settle })
    },
    'POST /control/modal': (body) => {
      const { timeoutMs, settle, ...seed } = Modal.parse(body)
      return outcome(people.submitModal(dense(seed)), { timeoutMs, settle })
    },
    'POST /control/clock': (body) => {
      platform.clock.advance(ClockMove.parse(body).advanceMs)
      return { nowMs: platform.clock.nowMs() }
    },
    'POST /control/gateway': (body) => {
      gatewayAct(platform, GatewayAct.parse(body))
      return describeState(platform).counts
    },
  }
}

async function run(act: Act, message: IncomingMessage): Promise<Answer> {
  try {
    const text = (await readBytes(message)).toString('utf8')
    return ok(await act(text === '' ? {} : JSON.parse(text)))
  } catch (error) {
    const why =
      error instanceof z.ZodError
        ? z.prettifyError(error)
        : String(error instanceof Error ? error.message : error)
    return { status: 422, body: { problem: why } }
  }
}

/** The `/control` routes: people and time, by HTTP. A problem is a 422 with a sentence. */
export function controlRoute(platform: Platform, people: People): ExtraRoute {
  const acts = actsOf(platform, people)
  return async (message, url) => {
    const act = acts[`${message.method} ${url.pathname}`]
    return act === undefined ? undefined : run(act, message)
  }
}
