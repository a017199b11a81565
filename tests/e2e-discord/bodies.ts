import { readFileSync } from 'node:fs'
import { InteractionType } from 'discord-api-types/v10'
import type { LoggedRequest } from '#tests/discord-loopback/index.ts'
import { checkCallback } from '#tests/discord-loopback/rules/callback.ts'
import { isObject, objectsOf } from '#tests/discord-loopback/rules/check.ts'
import { checkCommands } from '#tests/discord-loopback/rules/command.ts'
import { Findings } from '#tests/discord-loopback/rules/findings.ts'
import { checkMessage } from '#tests/discord-loopback/rules/message.ts'

type Judge = (request: LoggedRequest, findings: Findings) => void

/** Names of the files that a message carries: those sent along, and those that it says it keeps. */
function fileNames({ body, files }: LoggedRequest): string[] {
  const kept = isObject(body) ? objectsOf(isObject(body.data) ? body.data.attachments : body.attachments) : []
  return [...files.map((file) => file.name), ...kept.map((one) => String(one.filename))]
}

const message =
  (use: 'channel' | 'followUp' | 'edit'): Judge =>
  (request, findings) =>
    checkMessage(request.body, [], findings, {
      use,
      fileNames: fileNames(request),
      ...(use === 'edit' ? { before: { v2: true } } : {}),
    })

/** By a callback's own type; to what it answers, the stand-in has judged when it came. */
const callback: Judge = (request, findings) => {
  const type = isObject(request.body) ? Number(request.body.type) : 0
  const asked = type === 8 ? InteractionType.ApplicationCommandAutocomplete : InteractionType.MessageComponent
  const found = checkCallback(request.body, {
    type: asked,
    hasMessage: true,
    message: { fileNames: fileNames(request), before: { v2: true } },
  })
  findings.breaches.push(...found.breaches)
}

const JUDGES: Readonly<Record<string, Judge>> = {
  'PUT /applications/{application_id}/commands': ({ body }, findings) => {
    checkCommands(body, findings, false)
  },
  'POST /interactions/{interaction_id}/{interaction_token}/callback': callback,
  'PATCH /webhooks/{webhook_id}/{webhook_token}/messages/@original': message('edit'),
  'POST /webhooks/{webhook_id}/{webhook_token}': message('followUp'),
  'PATCH /channels/{channel_id}/messages/{message_id}': message('edit'),
  'POST /channels/{channel_id}/messages': message('channel'),
  'POST /users/@me/channels': ({ body }, findings) => {
    if (!isObject(body) || !/^\d{17,20}$/.test(String(body.recipient_id)))
      findings.breach(['recipient_id'], 'NUMBER_TYPE_COERCE', 'is not snowflake.')
  },
}

/** Judges every line of a bodies file by itself; a route without rules is a complaint too. */
export function judgeBodies(file: string): { readonly judged: number; readonly complaints: string[] } {
  const lines = readFileSync(file, 'utf8')
    .split('\n')
    .filter((line) => line !== '')
  const complaints = lines.flatMap((line) => {
    const request = JSON.parse(line) as LoggedRequest
    const name = `${request.method} ${request.route}`
    const judge = JUDGES[name]
    if (judge === undefined) return [`${name}: no rules`]
    const findings = new Findings()
    judge(request, findings)
    return findings.breaches.map(({ path, code }) => `${name}: ${path} ${code}`)
  })
  return { judged: lines.length, complaints }
}
