import { type Choice, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { findPlace, pick, pickSite } from '#src/mixing/resolve.ts'
import type { RecordDraft } from '#src/record/record.ts'
import { MOST_FIELDS } from '#src/record/step-list.ts'
import type { KeptDraft } from '#src/store/drafts.ts'
import type { KeptMix } from '#src/store/mixes.ts'
import type { Area } from '#src/store/sites.ts'
import { askFields, askNext } from './ask.ts'
import { planReminder } from './draft-reminder.ts'
import { envOf } from './env.ts'
import { freeText } from './fields/field.ts'
import { formFields, readForm } from './forms.ts'
import { fromSprayer, leftIn } from './from-mix.ts'
import { fromPerson } from './from-people.ts'
import { GROUND } from './ground.ts'
import type { LogOptions, LogState } from './options.ts'
import { addPhotos, isPhoto } from './photos.ts'
import { settle } from './settle.ts'
import { newDraft, withArea, withCoverage, withSite } from './start.ts'

/** Most drafts and mixes that are offered. */
const MOST_OFFERED = 10

/** Begins a log: from a mix, from a draft that was left, or from nothing. */
export async function beginLog(given: LogOptions, tools: Tools): Promise<Answer> {
  const stopped = await stoppedByIncident(tools)
  if (stopped !== null) return stopped
  if (given.photo !== undefined && !isPhoto(given.photo))
    return refuse(say('log-photos.kind', { file: given.photo.name }))
  if (given.draft !== undefined) return resume(given.draft, given.photo, tools)
  if (given.mix !== undefined) {
    const mix = await mixOf(given.mix, tools)
    if (mix === null) return refuse(say('logging.no-such-mix', { typed: given.mix }))
    if (mix.closedAs === 'not sprayed') return refuse(say('logging.mix-not-sprayed', { number: mix.number }))
    const begun = Object.keys(given).length === 1 ? await begunFrom(mix, tools) : undefined
    return begun === undefined ? open(mix, given, tools) : goOn(begun, tools)
  }
  const isBare = Object.keys(given).length === 0
  if (!isBare) return open(null, given, tools)
  const drafts = await tools.store.drafts.listOpen(tools.person.id, MOST_OFFERED)
  const mixes = await tools.store.mixes.listOpen(tools.person.id, MOST_OFFERED)
  if (drafts.length === 0 && mixes.length === 0) return open(null, given, tools)
  return offer(drafts, mixes, tools)
}

/** Who presses again because no answer came goes on with the log that was begun. */
async function begunFrom(mix: KeptMix, { store, person }: Tools): Promise<KeptDraft | undefined> {
  const drafts = await store.drafts.listOpen(person.id, MOST_OFFERED)
  return drafts.find(({ mixId }) => mixId === mix.id)
}

/** After words of exposure no new log begins until somebody says that it is dealt with. */
async function stoppedByIncident({ store, person }: Tools): Promise<Answer | null> {
  if ((await store.incidents.listOpen(person.id)).length === 0) return null
  return refuse(say('desk.exposure-open'))
}

export function refuse(title: Text): Answer {
  return { reply: reply('refusal', title, { audience: 'person', safety: { about: ['records'] } }) }
}

async function mixOf(typed: string, { store }: Tools): Promise<KeptMix | null> {
  const number = /^m?\s*#?(\d{1,9})$/i.exec(typed.trim())?.[1]
  return number === undefined ? null : ((await store.mixes.findByNumber(Number(number))) ?? null)
}

async function resume(typed: string, photo: LogOptions['photo'], tools: Tools): Promise<Answer> {
  const id = /^d?\s*(\d{1,9})$/i.exec(typed.trim())?.[1]
  const kept = id === undefined ? undefined : await tools.store.drafts.get(Number(id))
  if (kept === undefined || kept.status !== 'open') return refuse(say('logging.no-such-draft', { typed }))
  if (kept.personId !== tools.person.id && !tools.isLead) return refuse(say('logging.not-your-draft'))
  if (photo === undefined) return goOn(kept, tools)
  const { photos } = await addPhotos(kept, [photo], tools)
  const draft = { ...kept.draft, ...photos }
  await tools.store.drafts.update(kept.id, draft, tools.nowMs)
  return goOn({ ...kept, draft }, tools)
}

/** What was begun and not finished, then what was mixed and not used up, then a log from nothing. */
async function offer(drafts: readonly KeptDraft[], mixes: readonly KeptMix[], tools: Tools): Promise<Answer> {
  const { store } = tools
  const choices: Choice[] = []
  for (const { id, draft, mixId } of drafts) {
    const site = draft.siteId === undefined ? undefined : await store.sites.get(draft.siteId)
    const mix = mixId === null ? undefined : await store.mixes.get(mixId)
    const label =
      site === undefined ? say('logging.go-on', { number: id }) : say('logging.go-on-at', { site: site.name })
    choices.push({
      label,
      ...(mix === undefined ? {} : { hint: say('logging.from-mix', { number: mix.number }) }),
      to: { command: 'log', options: { draft: String(id) } },
    })
  }
  for (const mix of mixes) {
    const names = mix.body.products.flatMap(({ name }) => (name === null ? [] : [name]))
    choices.push({
      label: say('logging.mix-left', { number: mix.number, left: await leftIn(mix, store) }),
      ...(names.length === 0 ? {} : { hint: say('logging.of', { products: { all: names } }) }),
      to: { command: 'log', options: { mix: String(mix.number) } },
    })
  }
  choices.push({ label: say('logging.from-nothing'), to: { step: 'new' } })
  return {
    reply: reply('question', say('logging.which'), {
      choices,
      audience: 'person',
      safety: { about: ['records'] },
    }),
    state: { draft: null } satisfies LogState,
  }
}

/** Makes the draft, so that from now on nothing of it is lost. */
export async function open(mix: KeptMix | null, given: LogOptions, tools: Tools): Promise<Answer> {
  const place = await placeFor(mix, given, tools)
  if (!place.ok) return asked(place.ask, given)
  const { site, area } = place.value
  const based = await newDraft(mix, tools)
  const sited = site === null ? based : await withSite(based, site, tools)
  const placed = area === null ? sited : withArea(sited, area, tools)
  const named = await namedIn(given, { draft: placed, area }, tools)
  if (!named.ok) return asked(named.ask, given)
  // The product first: an ounce is a weight or a volume by its form.
  const filled = await settle(placed, named.draft, mix, tools)
  const typed = typedOf(given)
  const mixId = mix?.id ?? null
  const read = readForm(await envOf(filled, mixId, tools), Object.keys(typed), formFields(typed))
  const draft = await settle(filled, read.draft, mix, tools)
  const kept = await tools.store.drafts.create({ personId: tools.person.id, mixId, draft }, tools.nowMs)
  if (given.photo !== undefined) await addPhotos({ id: kept.id, draft: {} }, [given.photo], tools)
  await planReminder(kept.id, draft, tools)
  const env = await envOf(draft, mixId, tools)
  if (read.wrong.length === 0) return askNext(env, kept.id)
  const wrong = read.wrong.slice(0, MOST_FIELDS)
  return askFields(
    env,
    kept.id,
    wrong.map(({ name }) => name),
    { problems: wrong.map(({ problem }) => problem), typed: formFields(typed) },
  )
}

/** A name that has to be chosen: what was said with the command is kept until then. */
function asked(ask: Answer, given: LogOptions): Answer {
  return { ...ask, state: { draft: null, given } satisfies LogState }
}

/** The site of the mix where it was for one only; its only area, or the one it was mixed for. */
async function placeFor(mix: KeptMix | null, given: LogOptions, tools: Tools) {
  if (given.site !== undefined || given.area !== undefined) {
    const found = await findPlace(given, tools)
    // Which area is asked within the log, where the answer is kept.
    if (found.ok || given.site === undefined || given.area !== undefined) return found
    const site = await pickSite(given, given.site, tools)
    return site.ok ? { ok: true as const, value: { site: site.value, area: null } } : site
  }
  const [only, ...more] = mix?.body.places ?? []
  if (only === undefined || more.length > 0) return { ok: true as const, value: { site: null, area: null } }
  const site = (await tools.store.sites.get(only.siteId)) ?? null
  const areas = site === null ? [] : await tools.store.sites.listAreas(site.id)
  const area = areas.find(({ id }) => id === only.areaId) ?? (areas.length === 1 ? (areas[0] ?? null) : null)
  return { ok: true as const, value: { site, area } }
}

type Named = { readonly ok: true; readonly draft: RecordDraft } | { readonly ok: false; readonly ask: Answer }

/** Names that the crew's book knows, and what needs no reading. */
async function namedIn(
  given: LogOptions,
  { draft, area }: { readonly draft: RecordDraft; readonly area: Area | null },
  tools: Tools,
): Promise<Named> {
  const { store } = tools
  let named = given.coverage === undefined ? draft : withCoverage(draft, given.coverage, area)
  if (given.product !== undefined) {
    const exact = await store.labels.findByName(given.product)
    const book = exact === undefined ? (await store.labels.names()).map((name) => ({ name })) : [exact]
    const near = pick(given, 'product', given.product, book)
    // A product that the book does not hold is logged all the same, under the name that was typed.
    if (!near.ok && near.ask.reply.choices.length > 0) return near
    named = { ...named, products: [{ name: near.ok ? near.value.name : given.product.slice(0, 200) }] }
  }
  if (given.for !== undefined) {
    const person = pick(given, 'for', given.for, await store.people.list())
    if (!person.ok) return person
    const { license: _license, applicator: _applicator, ...rest } = named
    named = { ...rest, ...fromPerson(person.value) }
  }
  if (given.sprayer !== undefined) {
    const sprayer = pick(given, 'sprayer', given.sprayer, await store.sprayers.list())
    if (!sprayer.ok) return sprayer
    named = { ...named, ...fromSprayer(sprayer.value.name, sprayer.value.details) }
  }
  return {
    ok: true,
    draft: {
      ...named,
      ...(given.spots === undefined ? {} : { sameGround: GROUND[given.spots] }),
      ...(given.hands_washed === true ? { handsWashed: true } : {}),
      ...(given.unusual === false ? { unusual: { happened: false } } : {}),
      ...(given.notes === undefined ? {} : { notes: freeText(given.notes, tools) }),
      ...(given.photo === undefined ? {} : { photos: [given.photo.blob] }),
    },
  }
}

/** Options that a field of the forms reads, under the name of that field. */
function typedOf(given: LogOptions): Record<string, string> {
  const all = {
    date: given.date,
    startedAt: given.start,
    endedAt: given.end,
    targets: given.weed,
    treatedArea: given.ground,
    windSpeed: given.wind,
    windFrom: given.wind_from,
    temperature: given.temperature,
    humidityPercent: given.humidity,
    mixDrawn: given.used,
    amount: given.amount,
    rate: given.rate,
  }
  return Object.fromEntries(
    Object.entries(all).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])),
  )
}

/** A draft as it stands, and what it still needs. */
export async function goOn({ id, draft, mixId }: KeptDraft, tools: Tools): Promise<Answer> {
  return askNext(await envOf(draft, mixId, tools), id)
}
