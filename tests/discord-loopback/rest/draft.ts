import type { APIAttachment } from 'discord-api-types/v10'
import type { FileSeed } from '../files.ts'
import type { LoggedRequest } from '../ledger.ts'
import { isV2Message, type StoredMessage } from '../messages.ts'
import type { Platform } from '../platform.ts'
import { type Json, listOf, objectsOf } from '../rules/check.ts'
import { Findings } from '../rules/findings.ts'
import { checkMessage, FILES_PER_MESSAGE, isBlank, isV2, type MessageUse } from '../rules/message.ts'
import { walkComponents } from '../rules/parts.ts'
import { attachmentName } from '../rules/urls.ts'
import { type Answer, invalidForm, refusals } from './answers.ts'
import type { UploadedFile } from './body.ts'

/** Each file at most, by default. Source: Discord developer docs, reference, "Uploading Files". */
export const FILE_BYTES = 10 * 1024 * 1024

export interface Draft {
  body: Json
  /** All attachments that the message will have. */
  attachments: APIAttachment[]
}

export interface DraftRequest {
  body: Json
  files: readonly UploadedFile[]
  use: MessageUse
  before: StoredMessage | undefined
  channelId: string
  request: LoggedRequest
  /** Rules that were judged already (callbacks are judged as a whole). */
  judged?: Findings
}

/** Attachments that an edit keeps: those it lists, or all if it lists none. */
export function keptAttachments(body: Json, before: StoredMessage | undefined): APIAttachment[] {
  const old = before?.object.attachments ?? []
  if (!Array.isArray(body.attachments)) return old
  const listed = objectsOf(body.attachments).map((each) => String(each.id))
  return old.filter((each) => listed.includes(each.id))
}

/** Names that `attachment://` may point at. */
export function namesOfFiles(
  body: Json,
  files: readonly UploadedFile[],
  before: StoredMessage | undefined,
): string[] {
  return [...keptAttachments(body, before).map((each) => each.filename), ...files.map((each) => each.name)]
}

function checkListedFiles({ body, files, before }: DraftRequest, findings: Findings, at: string[]): void {
  const known = [
    ...files.map((each) => String(each.index)),
    ...(before?.object.attachments ?? []).map((each) => each.id),
  ]
  objectsOf(body.attachments).forEach((each, index) => {
    if (!known.includes(String(each.id)))
      findings.breach(
        [...at, 'attachments', index, 'id'],
        'ATTACHMENT_NOT_FOUND',
        'No such file in this request.',
      )
  })
}

/** In a V2 message a file that no component shows is invisible. */
function warnOfHidden(body: Json, names: readonly string[], findings: Findings): void {
  const text = JSON.stringify([...walkComponents(body.components ?? [], [])].map(({ one }) => one))
  for (const name of names)
    if (attachmentName(`attachment://${name}`) !== undefined && !text.includes(`attachment://${name}`))
      findings.warn(['attachments'], 'FILE_NOT_SHOWN', `No component shows "${name}".`)
}

function uploadsOf(draft: DraftRequest, platform: Platform): APIAttachment[] {
  const listed = objectsOf(draft.body.attachments)
  return draft.files.map((file) => {
    const entry = listed.find((each) => String(each.id) === String(file.index))
    const seed: FileSeed = { name: file.name, bytes: file.bytes, contentType: file.contentType }
    const description = typeof entry?.description === 'string' ? { description: entry.description } : {}
    return platform.files.put(seed, draft.channelId, description)
  })
}

function sizeProblem(files: readonly UploadedFile[]): Answer | undefined {
  if (files.length > FILES_PER_MESSAGE) return refusals.tooManyFiles()
  return files.some((file) => file.bytes.length > FILE_BYTES) ? refusals.tooLarge() : undefined
}

const blankAfter = ({ body, files, before }: DraftRequest): boolean => {
  const old = before?.object
  return isBlank({
    content: body.content === undefined ? (old?.content ?? '') : String(body.content ?? ''),
    embeds: body.embeds === undefined ? (old?.embeds ?? []) : listOf(body.embeds),
    components: body.components === undefined ? (old?.components ?? []) : listOf(body.components),
    others:
      files.length +
      keptAttachments(body, before).length +
      listOf(body.sticker_ids).length +
      (body.poll === undefined || body.poll === null ? 0 : 1),
  })
}

/** Judges a message as sent and, if it may stand, takes its files in. Breaches are noted in the ledger. */
export function draftMessage(
  platform: Platform,
  draft: DraftRequest,
): { ok: true; draft: Draft } | { ok: false; answer: Answer } {
  const { body, files, before, request, use } = draft
  const fail = (answer: Answer, path: string, message: string) => {
    platform.ledger.note(request, [{ path, code: `HTTP_${answer.status}`, message }])
    return { ok: false as const, answer }
  }
  const tooBig = sizeProblem(files)
  if (tooBig !== undefined) return fail(tooBig, 'files', 'Too many files, or one is too large')
  const findings = draft.judged ?? new Findings()
  const fileNames = namesOfFiles(body, files, before)
  const asBefore = before === undefined ? {} : { before: { v2: isV2Message(before.object) } }
  if (draft.judged === undefined) checkMessage(body, [], findings, { use, fileNames, ...asBefore })
  checkListedFiles(draft, findings, draft.judged === undefined ? [] : ['data'])
  if (isV2(body, asBefore.before))
    warnOfHidden(
      body,
      files.map((each) => each.name),
      findings,
    )
  platform.ledger.note(request, findings.breaches, findings.warnings)
  if (!findings.clean) return { ok: false, answer: invalidForm(findings) }
  if (blankAfter(draft)) return fail(refusals.emptyMessage(), '', 'Cannot send an empty message')
  const attachments = [...keptAttachments(body, before), ...uploadsOf(draft, platform)]
  return { ok: true, draft: { body, attachments } }
}
