import { askFor } from '#src/conversation/ask-for.ts'
import { asTyped, say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { indexOf, rank } from '#src/desk/suggest.ts'
import type { BookEntry } from '#src/store/labels.ts'
import type { Person } from '#src/store/people.ts'
import type { Area, Site } from '#src/store/sites.ts'
import type { Sprayer } from '#src/store/sprayers.ts'
import type { MixOptions } from './options.ts'

export type Found<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly ask: Answer }

const found = <T>(value: T): Found<T> => ({ ok: true, value })

/** The one with this name, however it is capitalized; else a question that offers the nearest. */
export function pick<T extends { readonly name: string }>(
  given: object,
  option: string,
  typed: string,
  all: readonly T[],
): Found<T> {
  const wanted = typed.trim().toLowerCase()
  const exact = all.find((one) => one.name.toLowerCase() === wanted)
  if (exact !== undefined) return found(exact)
  const near = rank(indexOf(all), typed).slice(0, 5)
  const title: Text = say(near.length > 0 ? 'find.which' : 'find.none', {
    option: say(`option.${option}`),
    typed,
  })
  const choices = near.map(({ name }) => ({ label: asTyped(name), set: { [option]: name } }))
  return { ok: false, ask: askFor(given, title, choices, { audience: 'person' }) }
}

/** Who, where and with what, as the crew's book knows them. */
export interface Named {
  readonly product: (BookEntry & { readonly live: NonNullable<BookEntry['live']> }) | null
  readonly sprayer: Sprayer | null
  readonly site: Site | null
  readonly area: Area | null
  readonly person: Person
}

/** Looks up every name of the request, one question at a time. */
export async function findNamed(given: MixOptions, tools: Tools): Promise<Found<Named>> {
  const { store } = tools
  const product = await findProduct(given, tools)
  if (!product.ok) return product
  const sprayer =
    given.sprayer === undefined
      ? found(null)
      : pick(given, 'sprayer', given.sprayer, await store.sprayers.list())
  if (!sprayer.ok) return sprayer
  const place = await findPlace(given, tools)
  if (!place.ok) return place
  const person =
    given.for === undefined ? found(tools.person) : pick(given, 'for', given.for, await store.people.list())
  if (!person.ok) return person
  return found({
    product: product.value,
    sprayer: sprayer.value,
    site: place.value.site,
    area: place.value.area,
    person: person.value,
  })
}

async function findProduct(given: MixOptions, { store }: Tools): Promise<Found<Named['product']>> {
  if (given.product === undefined) return found(null)
  let entry = await store.labels.findByName(given.product)
  if (entry === undefined) {
    const book = (await store.labels.names()).map((name) => ({ name }))
    const near = pick(given, 'product', given.product, book)
    if (!near.ok) return near
    entry = await store.labels.findByName(near.value.name)
  }
  if (entry === undefined) throw new Error('Cannot find the product just listed')
  const { live } = entry
  if (live !== null) return found({ ...entry, live })
  const waits = askFor(given, say('mixing.not-live', { product: entry.name }), [], { outcome: 'hold' })
  return { ok: false, ask: waits }
}

/** The site of this name; whoever chose it from those offered is not made to wait until all are read. */
export async function pickSite(
  given: object,
  typed: string,
  { store }: Pick<Tools, 'store'>,
): Promise<Found<Site>> {
  const named = await store.sites.findByName(typed.trim())
  return named === undefined ? pick(given, 'site', typed, await store.sites.list()) : found(named)
}

/** A site's only area is meant without saying so; among several, the question is asked. */
export async function findPlace(
  given: { readonly site?: string | undefined; readonly area?: string | undefined },
  tools: Pick<Tools, 'store'>,
): Promise<Found<{ readonly site: Site | null; readonly area: Area | null }>> {
  if (given.site === undefined) {
    if (given.area === undefined) return found({ site: null, area: null })
    return { ok: false, ask: askFor(given, say('find.site-first'), [], { audience: 'person' }) }
  }
  const site = await pickSite(given, given.site, tools)
  if (!site.ok) return site
  const areas = await tools.store.sites.listAreas(site.value.id)
  if (given.area !== undefined) {
    const area = pick(given, 'area', given.area, areas)
    return area.ok ? found({ site: site.value, area: area.value }) : area
  }
  if (areas.length <= 1) return found({ site: site.value, area: areas[0] ?? null })
  const choices = areas.map(({ name }) => ({ label: asTyped(name), set: { area: name } }))
  return { ok: false, ask: askFor(given, say('find.which-area', { site: site.value.name }), choices) }
}
