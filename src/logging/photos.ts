import type { StoredFile } from '#src/conversation/ask.ts'
import { field } from '#src/conversation/fields.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { RecordDraft } from '#src/record/record.ts'
import type { LogState } from './options.ts'

/** What photos are kept under, of a log by its draft and of an amendment by its record: no backup leaves them out. */
type Kind = 'log' | 'amendment'

/** As many as every messenger shows beside one record. */
export const MOST_PHOTOS = 10

export const isPhoto = ({ type }: StoredFile) => type.startsWith('image/') || type === 'application/pdf'

export const photosOf = ({ photos }: RecordDraft): readonly string[] => recorded(photos) ?? []

/** The photos of a log, or of a record, with those that were just sent, and what is wrong with those that are not kept. */
export async function addPhotos(
  { id, draft, kind = 'log' }: { readonly id: number; readonly draft: RecordDraft; readonly kind?: Kind },
  sent: readonly StoredFile[],
  { store, nowMs }: Tools,
): Promise<{
  readonly photos: Pick<RecordDraft, 'photos'>
  readonly problems: readonly Text[]
}> {
  const before = photosOf(draft)
  const problems = sent
    .filter((file) => !isPhoto(file))
    .map(({ name }) => say('log-photos.kind', { file: name }))
  const fresh = [...new Map(sent.filter(isPhoto).map((file) => [file.blob, file])).values()].filter(
    ({ blob }) => !before.includes(blob),
  )
  const taken = fresh.slice(0, Math.max(0, MOST_PHOTOS - before.length))
  for (const file of taken) await store.files.attach(file, kind, id, nowMs)
  if (taken.length < fresh.length) problems.push(say('log-photos.most', { most: MOST_PHOTOS }))
  const photos = [...before, ...taken.map(({ blob }) => blob)]
  return { photos: photos.length === 0 ? {} : { photos }, problems }
}

/** From the phone's camera or its pictures; with what is wrong with those that were sent. */
export function askPhotos(draftId: number, problems: readonly Text[] = []): Answer {
  return {
    reply: reply('question', problems.length === 0 ? say('log-photos.title') : say('common.not-yet'), {
      lines: [...problems],
      form: {
        title: say('log-photos.title'),
        open: say('log-photos.add'),
        fields: [field('log-photos.form', 'photo', { kind: 'file', hint: true })],
        to: { step: 'photos' },
      },
      choices: [{ label: say('log-photos.none'), to: { step: 'look' } }],
      audience: 'person',
      safety: { about: ['records'] },
    }),
    state: { draft: draftId } satisfies LogState,
  }
}
