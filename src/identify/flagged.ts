import type { StoredFile } from '#src/conversation/ask.ts'
import type { Attachment, Reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { PHOTOS } from './keep.ts'
import type { Live } from './state.ts'

/** Beside a picture of our own there is room for a few photos in any messenger. */
const PHOTOS_SHOWN = 3
const MOST_CHOICES = 25

/** What stands beside a flagged plant: a lead's own name for it; for a lead, its photos and the way to name it. */
export async function withFlag(reply: Reply, walk: Live, tools: Tools): Promise<Reply> {
  const { store, isLead } = tools
  const flag = walk.id === null ? undefined : await store.plantFlags.ofWalk(walk.id)
  if (walk.id === null || flag === undefined) return reply
  const lead = flag.namedBy === null ? undefined : await store.people.get(flag.namedBy)
  const named =
    flag.name === null ? [] : [say('identify.named', { person: lead?.name ?? '', name: flag.name })]
  const photos = isLead ? await store.files.list(PHOTOS, walk.id) : []
  const naming =
    isLead && reply.choices.length < MOST_CHOICES
      ? [{ label: say('identify.name-it'), to: { step: 'name' }, who: 'lead' as const }]
      : []
  return {
    ...reply,
    lines: [...named, ...reply.lines],
    choices: [...reply.choices, ...naming],
    files: [...reply.files, ...photos.slice(0, PHOTOS_SHOWN).map(photoOf)],
  }
}

export function photoOf(photo: StoredFile, at: number): Attachment {
  return {
    name: `photo-${at + 1}.${photo.type.split('/').at(-1)}`,
    alt: say('identify.photo-alt'),
    from: { blob: photo.blob },
  }
}
