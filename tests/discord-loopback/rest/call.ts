import type { LoggedRequest } from '../ledger.ts'
import type { Platform } from '../platform.ts'
import type { Answer } from './answers.ts'
import type { UploadedFile } from './body.ts'

/** A request as a route sees it. */
export interface Call {
  params: Record<string, string>
  query: URLSearchParams
  json: unknown
  files: UploadedFile[]
  request: LoggedRequest
}

export type Handler = (call: Call, platform: Platform) => Answer

export interface Route {
  method: string
  /** Path template, named as in the published API description. */
  template: string
  /** Whether the bot's token is asked for; interaction routes carry their own. */
  bot: boolean
  handle: Handler
}

/** A parameter of the template; absent would be a bug of the route table. */
export function param(call: Call, name: string): string {
  const value = call.params[name]
  if (value === undefined) throw new Error(`Cannot find parameter "${name}" in ${call.request.route}`)
  return value
}
