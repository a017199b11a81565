import { field, filesOf, textOf } from '#src/conversation/fields.ts'
import { type Reply, reply } from '#src/conversation/reply.ts'
import { asTyped, say, type Text } from '#src/conversation/text.ts'
import type { Answer as Answered, FieldValue, Tools } from '#src/desk/command.ts'
import { findTaxa } from '#src/key/index.ts'
import { plants } from '#src/plants.ts'
import { factsOf } from './facts.ts'
import { photoOf } from './flagged.ts'
import { keepPhotos, keepWalk, PHOTOS } from './keep.ts'
import { possibleLine, walkLine } from './lines.ts'
import { placeWords } from './place.ts'
import { choice } from './question.ts'
import { type Weighed, weigh } from './show.ts'
import type { Live } from './state.ts'
import { sayAnswer } from './words.ts'

type Fields = Readonly<Record<string, FieldValue>>

/** A note and photos for the lead, before the plant is flagged. */
export function askLeadForm(walk: Live): Answered {
  return {
    reply: reply('question', say('identify.ask-lead-title'), {
      lines: [say('identify.photo-how')],
      form: {
        title: say('identify.ask-lead-title'),
        open: say('common.fill-in'),
        fields: [
          field('identify.form', 'photo', { kind: 'file', hint: true }),
          field('identify.form', 'note', { kind: 'long-text', hint: true, maxLength: 500 }),
        ],
        to: { step: 'asked-lead' },
      },
      choices: [choice('common.back', { step: 'stop' })],
      audience: 'person',
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk },
  }
}

/** Flags the plant, keeps its photos, and tells every lead; nobody sprays it meanwhile. */
export async function flag(walk: Live, fields: Fields, tools: Tools): Promise<Answered> {
  const { store, person, turn, nowMs, canWrite } = tools
  const kept = await keepWalk(walk, 'flagged', tools)
  const note = textOf(fields, 'note')
  await keepPhotos(kept, filesOf(fields, 'photo'), tools)
  const weighed = await weigh(kept, tools)
  if (kept.id !== null && canWrite) {
    await store.plantFlags.open({ walkId: kept.id, turnId: turn.id, personId: person.id, note }, nowMs)
    await tellLeadsOf(weighed, note, tools)
  }
  return {
    reply: reply('hold', say('identify.flagged'), {
      lines: [say('identify.flagged-then'), ...walkLine(kept)],
      facts: factsOf({ ...weighed.standing, result: 'hold' }, { walk: kept.number }),
      choices: [
        choice('identify.wait', { step: 'wait' }),
        choice('identify.sample', { step: 'sample' }),
        { ...choice('identify.name-it', { step: 'name' }), who: 'lead' },
      ],
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk: kept },
  }
}

async function tellLeadsOf({ walk, place, standing }: Weighed, note: string, tools: Tools): Promise<void> {
  const { store, crew, person, turn, nowMs } = tools
  const where = placeWords(place)
  const photos = walk.id === null ? [] : await store.files.list(PHOTOS, walk.id)
  const notice = reply('heads-up', say('identify.lead-flag', { person: person.name }), {
    lines: [
      ...(where === null ? [] : [say('identify.at-place', { place: where })]),
      ...(note === '' ? [] : [asTyped(note)]),
      possibleLine(standing),
      ...walk.body.answers.map(sayAnswer),
      ...walkLine(walk),
    ],
    facts: walk.number === null ? [] : [{ name: 'walk', value: walk.number }],
    choices: [
      {
        label: say('identify.name-it'),
        to: { step: 'name', value: walk.id ?? 0 },
        who: 'lead',
        repeat: true,
      },
      { label: say('identify.open-walk-button'), to: { step: 'resume', value: walk.id ?? 0 }, repeat: true },
    ],
    files: photos.map(photoOf),
    audience: 'person',
    safety: { about: ['identification'] },
  })
  for (const lead of (await store.people.leads()).filter(({ id }) => id !== person.id))
    await store.deliveries.plan(
      {
        personId: lead.id,
        command: 'key',
        reply: notice,
        nonce: `${crew.id}-flag-${turn.id}-${lead.id}`,
        dueAtMs: nowMs,
      },
      nowMs,
    )
}

/** A lead says what it is, in the lead's own words. */
export function askName(walk: Live, tools: Tools, problem?: Text): Answered {
  if (!tools.isLead) return { reply: reply('refusal', say('desk.lead-only'), { audience: 'person' }) }
  return {
    reply: reply('question', say('identify.name-title'), {
      lines: [problem ?? say('identify.name-how')],
      form: {
        title: say('identify.name-title'),
        open: say('common.fill-in'),
        fields: [field('identify.form', 'name', { required: true, hint: true, maxLength: 120 })],
        to: { step: 'named' },
      },
      audience: 'person',
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk },
  }
}

/** Keeps a lead's own identification under the lead's name, and tells whoever flagged the plant. */
export async function keepName(walk: Live, fields: Fields, tools: Tools): Promise<Answered> {
  const { store, person, nowMs, crew, turn } = tools
  const name = textOf(fields, 'name')
  if (!tools.isLead || name === '') return askName(walk, tools)
  const flagged = walk.id === null ? undefined : await store.plantFlags.ofWalk(walk.id)
  if (walk.id === null || flagged === undefined) return askName(walk, tools, say('identify.not-flagged'))
  const [match] = findTaxa(plants(), name)
  const taxon = match?.quality === 0 && match.ids.length === 1 ? (match.ids[0] ?? null) : null
  await store.plantFlags.name(walk.id, { name, taxon, namedBy: person.id }, nowMs)
  if (flagged.personId !== person.id)
    await store.deliveries.plan(
      {
        personId: flagged.personId,
        command: 'key',
        reply: namedNotice(walk, name, tools),
        nonce: `${crew.id}-named-${turn.id}`,
        dueAtMs: nowMs,
      },
      nowMs,
    )
  return { reply: namedNotice(walk, name, tools), state: { kind: 'walk', walk } }
}

function namedNotice(walk: Live, name: string, { person }: Tools): Reply {
  const lines = [say('identify.named-then'), ...walkLine(walk)]
  return reply('heads-up', say('identify.named', { person: person.name, name }), {
    lines,
    facts: walk.number === null ? [] : [{ name: 'walk', value: walk.number }],
    audience: 'person',
    safety: { about: ['identification'] },
  })
}

/** How a sample is taken for people who identify plants for a living. */
export function samplePage(walk: Live): Answered {
  return {
    reply: reply('hold', say('identify.sample-title'), {
      lines: [
        say('identify.sample-whole'),
        say('identify.sample-pack'),
        say('identify.sample-where'),
        ...walkLine(walk),
      ],
      facts: [{ name: 'result', value: 'hold', text: say('identify.result.hold') }],
      choices: [choice('common.back', { step: 'stop' }), choice('identify.flag', { step: 'flag' })],
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk },
  }
}
