import type { StoredFile } from '#src/conversation/ask.ts'
import type { Tools } from '#src/desk/command.ts'
import type { WalkBody, WalkStatus } from '#src/store/walks.ts'
import { closeHeldLook } from '#src/visits/held.ts'
import type { Live } from './state.ts'

/** What photos of a walk's plant are kept under. */
export const PHOTOS = 'walk'

export const emptyBody: WalkBody = {
  siteId: null,
  areaId: null,
  turfs: [],
  turfUnknown: false,
  guess: null,
  mown: true,
  hasHead: false,
  answers: [],
}

/**
 * Keeps a walk as it stands now. While the store cannot be written the key still answers; there is then nothing to
 * come back to.
 */
export async function keepWalk(walk: Live, status: WalkStatus, tools: Tools): Promise<Live> {
  const { store, nowMs, person, turn, canWrite } = tools
  if (!canWrite) return walk
  if (walk.id !== null) {
    await store.walks.update(walk.id, { status, body: walk.body }, nowMs)
    await closeHeldLook(walk.id, tools)
    return walk
  }
  const kept = { number: turn.number, personId: person.id, status, body: walk.body }
  return { ...walk, number: turn.number, id: await store.walks.create(kept, nowMs) }
}

/** Photos in files of their own kind only: a paper is no picture of a plant. */
export async function keepPhotos(walk: Live, photos: readonly StoredFile[], tools: Tools): Promise<void> {
  if (walk.id === null || !tools.canWrite) return
  for (const photo of photos.filter(({ type }) => type.startsWith('image/')))
    await tools.store.files.attach(photo, PHOTOS, walk.id, tools.nowMs)
}

export async function findWalk(number: number, { store }: Tools): Promise<Live | null> {
  const walk = (await store.walks.findByNumber(number)) ?? (await findByLaterAnswer(number, store))
  return walk === undefined ? null : { id: walk.id, number: walk.number, body: walk.body }
}

const LOOKED_AT = 300

/** People remember the number that they saw last, not the one under which the walk began. */
async function findByLaterAnswer(number: number, store: Tools['store']) {
  const answers = await store.turns.list({ command: 'key', limit: LOOKED_AT })
  const found = answers.find((answer) => answer.number === number)
  const walk = found?.reply.facts.find(({ name }) => name === 'walk')?.value
  return typeof walk === 'number' ? store.walks.findByNumber(walk) : undefined
}

export async function walkById(id: number | null, { store }: Pick<Tools, 'store'>): Promise<Live | null> {
  const walk = id === null ? undefined : await store.walks.get(id)
  return walk === undefined ? null : { id: walk.id, number: walk.number, body: walk.body }
}
