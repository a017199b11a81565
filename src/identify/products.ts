import { type Choice, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer as Answered, Tools } from '#src/desk/command.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { productsFor } from '#src/label/fitting.ts'
import { mix } from '#src/mixing/mix.ts'
import { plantName } from '#src/plants.ts'
import { factsOf } from './facts.ts'
import { nameOf, walkLine } from './lines.ts'
import { guardedOf, turfWords } from './place.ts'
import { choice } from './question.ts'
import { type Weighed, weigh } from './show.ts'
import type { Live } from './state.ts'
import { turfPage } from './turf.ts'

const OFFERED = 15

/**
 * Which products of this crew's own book list this weed on every grass of this lawn. A name that stands for several
 * plants needs a label that lists all of them. Null when the walk does not end in a weed: a hold leads nowhere.
 */
export async function productsPage(walk: Live, tools: Tools): Promise<Answered | null> {
  const weighed = await weigh(walk, tools)
  const { place, standing } = weighed
  if (standing.result !== 'weed') return null
  if (place.turf.kind === 'unknown') return turfPage(walk, tools)
  const found = await fittingProducts(weighed, tools)
  const title = say(found.length === 0 ? 'identify.no-product' : 'identify.which-product', {
    name: nameOf(standing),
    turfs: turfWords(place),
    count: found.length,
  })
  return {
    reply: reply(found.length === 0 ? 'heads-up' : 'question', title, {
      lines: [
        ...found.slice(0, OFFERED).map(({ name, lines }): Text => {
          return say('identify.product', { product: name, line: lines.join(' … ') })
        }),
        ...(found.length === 0 ? [say('identify.no-product-then')] : []),
        ...walkLine(walk),
      ],
      facts: [
        ...factsOf(standing, { walk: walk.number }),
        { name: 'products', value: found.map(({ name }) => name).join('; ') },
      ],
      choices: [
        ...found.slice(0, OFFERED).map(({ name }): Choice => {
          return { label: say('identify.mix', { product: name }), to: { step: 'mix', value: name } }
        }),
        choice('identify.to-result', { step: 'here' }),
      ],
      audience: 'person',
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk },
  }
}

interface Fitting {
  readonly name: string
  readonly lines: readonly string[]
}

async function fittingProducts({ place, standing }: Weighed, tools: Tools): Promise<Fitting[]> {
  const book = (await tools.store.labels.list()).flatMap(({ live, retired }) =>
    live === null || retired ? [] : [live.body],
  )
  const weeds = standing.taxon?.members.map(({ id }) => id) ?? []
  const pairs = weeds.flatMap((weed) => guardedOf(place).map((turf) => ({ weed, turf })))
  return book.flatMap((entry) => {
    const lines = pairs.map(({ weed, turf }) => linesOf(entry, weed, turf))
    const first = lines[0] ?? []
    return lines.every((each) => each.length > 0) ? [{ name: entry.name, lines: first }] : []
  })
}

const linesOf = (entry: LabelEntry, weed: string, turf: string) =>
  (productsFor([entry], weed, turf)[0]?.lines ?? []).map(({ line }) => line)

/**
 * Straight to the mix, filled in. The walk is weighed once more first: between the two presses an overseed may have
 * come up, a label been revised, or words of exposure been heard, which stop all mixing.
 */
export async function mixPage(walk: Live, product: string, tools: Tools): Promise<Answered | null> {
  const weighed = await weigh(walk, tools)
  const { place, standing } = weighed
  const [leading] = standing.taxon?.members ?? []
  if (standing.result !== 'weed' || leading === undefined) return null
  const fits = (await fittingProducts(weighed, tools)).some(({ name }) => name === product)
  if (!fits) return productsPage(walk, tools)
  if ((await tools.store.incidents.listOpen(tools.person.id)).length > 0)
    return { reply: reply('refusal', say('desk.exposure-open'), { audience: 'person' }) }
  const answer = await mix(
    {
      product,
      weed: plantName(leading.id, 'en'),
      ...(place.site === null ? {} : { site: place.site.name }),
      ...(place.area === null ? {} : { area: place.area.name }),
    },
    tools,
  )
  return { ...answer, keptAs: 'mix' }
}
