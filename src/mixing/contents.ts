import { askFor } from '#src/conversation/ask-for.ts'
import { field } from '#src/conversation/fields.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { mayI } from '#src/label/allow.ts'
import type { ContentsDetails, SprayerEvent } from '#src/store/sprayers.ts'
import type { MixOptions } from './options.ts'
import type { Named } from './resolve.ts'

export type Contents =
  /** `notes` are to be minded, `told` is only told. */
  | { readonly ok: true; readonly notes: readonly Text[]; readonly told: readonly Text[] }
  | { readonly ok: false; readonly ask: Answer }

/**
 * What is in this sprayer, or was in it last, and whether this mix may go on top. Nothing is guessed: what nobody
 * logged is a hold until somebody says that it is clean.
 */
export async function checkContents(
  given: MixOptions,
  named: Named,
  tools: Tools,
  /** Entries that go into the same tank beside the named product. */
  others: readonly number[] = [],
): Promise<Contents> {
  const { sprayer } = named
  if (sprayer === null) return { ok: true, notes: [], told: [] }
  const [last] = await tools.store.sprayers.listEvents(sprayer.id, 1)
  if (last === undefined || last.kind === 'unknown')
    return { ok: false, ask: hold(given, say('mixing.contents-unknown', { sprayer: sprayer.name })) }
  if (last.kind === 'cleaned') return { ok: true, notes: [], told: [] }
  const who = await tools.store.people.get(last.personId)
  const told = {
    sprayer: sprayer.name,
    products: { all: last.details.products.map(({ name }) => name) },
    person: who?.name ?? '',
    at: { atMs: last.atMs, zone: tools.crew.zone, style: 'date-time' },
  } as const
  if (!isSameMix(last, named, others)) return differs(given, named, last, told, tools)
  if (last.kind === 'poured' && given.in_tank === undefined)
    return { ok: false, ask: askWhatIsLeft(given, told) }
  return { ok: true, notes: [], told: [say(`mixing.last-${last.kind}`, told)] }
}

/** What is left must be the very mix; traces of what was emptied may be of fewer products. */
function isSameMix(
  { kind, details: { products } }: SprayerEvent,
  { product }: Named,
  others: readonly number[],
): boolean {
  const wanted = new Set(product === null ? others : [product.id, ...others])
  const held = new Set(products.map(({ entryId }) => entryId))
  const isKnown = [...held].every((id) => id !== null && wanted.has(id))
  return isKnown && (kind !== 'poured' || held.size >= wanted.size)
}

async function differs(
  given: MixOptions,
  named: Named,
  last: SprayerEvent,
  told: Parameters<typeof say>[1] & object,
  tools: Tools,
): Promise<Contents> {
  if (last.kind === 'poured') {
    if (given.in_tank !== undefined)
      return {
        ok: false,
        ask: {
          reply: reply('refusal', say('mixing.other-in-tank', told), { lines: [say('mixing.mix-of-both')] }),
        },
      }
    return { ok: false, ask: askWhatIsLeft(given, told) }
  }
  const problem = await lastIsUnsafe(last.details, named, tools)
  if (problem !== null) return { ok: false, ask: hold(given, say(problem, told)) }
  return { ok: true, notes: [say('mixing.other-before', told)], told: [] }
}

/** Traces of what was last in the tank kill or harm a lawn that the product is not for. */
async function lastIsUnsafe(details: ContentsDetails, { area }: Named, tools: Tools): Promise<string | null> {
  for (const { entryId } of details.products) {
    const entry = entryId === null ? undefined : await tools.store.labels.get(entryId)
    if (entry?.live == null) return 'mixing.last-unknown'
    if (entry.live.body.nonSelective === true) return 'mixing.last-nonselective'
    const turfs = area?.details.turfs ?? []
    if (turfs.length === 0) continue
    const verdict = mayI(entry.live.body, {
      turfs,
      licensed: true,
      today: tools.today,
      lastConfirmedOn: tools.today,
      treatments: [],
    })
    const forbids = ['label.turf-excluded', 'label.turf-not-listed']
    if (verdict.reasons.some(({ id }) => forbids.includes(id))) return 'mixing.last-not-allowed'
  }
  return null
}

function hold(given: MixOptions, title: Text): Answer {
  return askFor(given, title, [{ label: say('mixing.cleaned'), set: { '@contents': 'cleaned' } }], {
    outcome: 'hold',
    lines: [say('mixing.clean-first')],
    safety: { about: ['cleanup'] },
  })
}

/** Who poured what and when; then what has become of it. */
function askWhatIsLeft(given: MixOptions, told: Parameters<typeof say>[1] & object): Answer {
  const asked = askFor(
    given,
    say('mixing.poured-before', told),
    [
      { label: say('mixing.empty-clean'), set: { '@contents': 'cleaned' } },
      { label: say('mixing.empty'), set: { '@contents': 'emptied' } },
    ],
    {
      lines: [say('mixing.what-is-left')],
      form: {
        title: say('mixing.form.title'),
        open: say('mixing.some-left'),
        fields: [field('mixing.form', 'in_tank', { required: true, hint: true })],
        to: { step: 'fields' },
      },
      safety: { about: ['leftover', 'cleanup'] },
    },
  )
  return asked
}

/** Keeps what somebody said of the tank, so that the question does not come again. */
export async function noteContents(kind: unknown, named: Named, tools: Tools): Promise<void> {
  if (named.sprayer === null || (kind !== 'cleaned' && kind !== 'emptied')) return
  const [last] = await tools.store.sprayers.listEvents(named.sprayer.id, 1)
  await tools.store.sprayers.addEvent({
    sprayerId: named.sprayer.id,
    personId: tools.person.id,
    turnId: tools.turn.id,
    kind,
    atMs: tools.nowMs,
    details: { ...(last?.details ?? { products: [], rate: null, output: null, note: '' }), volume: null },
  })
}
