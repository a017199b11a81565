import type { Answer, Tools } from '#src/desk/command.ts'
import { keepMix } from '#src/mixing/kept-mix.ts'
import type { MixBody } from '#src/store/mixes.ts'
import { open } from './begin.ts'

/** From an answer straight to its log: the mix gets its number, and the log begins with it. */
export async function logMixed(body: MixBody, tools: Tools): Promise<Answer> {
  return { ...(await open(await keepMix(body, tools), {}, tools)), keptAs: 'log' }
}
