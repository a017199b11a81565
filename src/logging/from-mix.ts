import type { Tools } from '#src/desk/command.ts'
import { momentOf } from '#src/desk/moments.ts'
import { big } from '#src/quantity/big.ts'
import { add, amountIn, type Quantity, quantity, subtract } from '#src/quantity/quantity.ts'
import { isVolumeUnit, type VolumeUnit } from '#src/quantity/units.ts'
import { notRecorded, recorded } from '#src/record/not-recorded.ts'
import type { ProductUsed } from '#src/record/product.ts'
import type { RecordDraft } from '#src/record/record.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { KeptMix, MixedProduct } from '#src/store/mixes.ts'
import type { SprayerDetails } from '#src/store/sprayers.ts'
import { productOf, unknownProduct } from './from-book.ts'
import { targetOf } from './target.ts'

type Volume = Quantity<VolumeUnit>

/** What is in a record because of the mix it draws from: products, recipe, equipment, how it was carried. */
export async function fromMix(mix: KeptMix, { store, crew }: Tools): Promise<RecordDraft> {
  const { made, products, adjuvants, output, sprayerId } = mix.body
  const used: ProductUsed[] = []
  for (const product of products) {
    const one = await productUsed(product, store)
    if (one !== null) used.push(one)
  }
  const sprayer = sprayerId === null ? undefined : await store.sprayers.get(sprayerId)
  const [only] = products
  return {
    mixNumber: `M${mix.number}`,
    mixedAt: momentOf(crew.zone, mix.createdAtMs),
    mixMade: made,
    ...(products.length === 1 && only?.amount != null
      ? { recipe: { concentrate: only.amount, diluent: diluentOf(made, only.amount) } }
      : {}),
    ...(used.length === 0 ? {} : { products: used }),
    adjuvants: adjuvants.map(({ name, amount }) => ({ name, amount: amount ?? notRecorded })),
    carrier: { kind: 'water' },
    ...(output === null ? {} : { output }),
    ...(sprayer === undefined ? {} : fromSprayer(sprayer.name, sprayer.details)),
    ...(mix.body.weed === null ? {} : { targets: [targetOf(mix.body.weed)] }),
  }
}

/** A liquid takes room in the tank; a powder is not counted. */
function diluentOf(made: Volume, concentrate: Quantity): Volume {
  return isVolumeUnit(concentrate.unit) ? subtract(made, concentrate) : made
}

async function productUsed(product: MixedProduct, store: CrewStore): Promise<ProductUsed | null> {
  const { name, revisionId, lineId, rate } = product
  const revision = revisionId === null ? undefined : await store.labels.getRevision(revisionId)
  if (revision !== undefined) return { ...productOf(revision, lineId), rate }
  return name === null ? null : { ...unknownProduct(name), rate }
}

const METHODS: readonly (readonly [
  RegExp,
  NonNullable<Extract<RecordDraft['method'], { kind: string }>>['kind'],
])[] = [
  [/backpack|knapsack|mochila/i, 'backpack sprayer'],
  [/hose/i, 'hose-end sprayer'],
  [/gun/i, 'spray gun'],
  [/boom|walk|ride|tow|mounted/i, 'boom sprayer'],
  [/spot/i, 'spot sprayer'],
  [/wip|wick/i, 'wiper'],
  [/drop spreader/i, 'drop spreader'],
  [/spreader/i, 'broadcast spreader'],
  [/hand|can|pump/i, 'hand sprayer'],
]

export function fromSprayer(name: string, { kind, tip, pressure }: SprayerDetails): RecordDraft {
  const method =
    METHODS.find(([pattern]) => pattern.test(kind)) ?? METHODS.find(([pattern]) => pattern.test(name))
  const psi = /^([\d.]+)\s*psi$/i.exec(pressure.trim())?.[1]
  return {
    sprayer: name,
    ...(method === undefined ? {} : { method: { kind: method[1] } }),
    ...(tip.trim() === '' ? {} : { nozzle: tip.trim().slice(0, 200) }),
    ...(psi === undefined ? {} : { pressure: quantity(psi, 'psi') }),
  }
}

/** What the standing records have drawn from a mix, but for one that is judged anew; null when none has. */
export async function drawnFrom(mix: KeptMix, store: CrewStore, but?: number): Promise<Volume | null> {
  const volumes = (await store.records.ofMix(mix.id)).flatMap(({ number, drawn }) =>
    drawn === null || number === but ? [] : [drawn as Volume],
  )
  const [first, ...rest] = volumes
  return first === undefined ? null : rest.reduce<Volume>((sum, one) => add(sum, one), first)
}

/** What is left in it; never less than nothing. */
export async function leftIn(mix: KeptMix, store: CrewStore): Promise<Volume> {
  const drawn = await drawnFrom(mix, store)
  const left = drawn === null ? mix.body.made : subtract(mix.body.made, drawn)
  return big(left.value).lt(0) ? { ...left, value: '0' } : left
}

/**
 * What follows from how much of the mix went on here: product as it comes, water, and what is left of the tank. Each
 * product goes by its share of the mix; nothing is told where the mix does not tell it.
 */
export function drawFrom(
  mix: KeptMix,
  draft: RecordDraft,
  drawn: Volume,
  before: Volume | null,
): RecordDraft {
  const { made, products } = mix.body
  const share = amountIn(drawn, made.unit).div(made.value)
  const used = (recorded(draft.products) ?? []).map((one): ProductUsed => {
    const mixed = products.find(({ name }) => name === one.name)
    if (mixed === undefined) return one
    if (mixed.amount === null) return { ...one, amount: notRecorded }
    return { ...one, amount: rounded(quantity(big(mixed.amount.value).times(share), mixed.amount.unit)) }
  })
  const left = before === null ? subtract(made, drawn) : subtract(subtract(made, before), drawn)
  return {
    mixDrawn: drawn,
    totalMix: drawn,
    carrierAmount: waterIn(drawn, used),
    ...(used.length === 0 ? {} : { products: used }),
    leftover: big(left.value).lt(0) ? { ...left, value: '0' } : left,
  }
}

function waterIn(drawn: Volume, used: readonly ProductUsed[]): Volume {
  const liquids = used
    .flatMap(({ amount }) => recorded(amount) ?? [])
    .filter(({ unit }) => isVolumeUnit(unit))
  return rounded(liquids.reduce<Volume>((water, liquid) => subtract(water, liquid), drawn))
}

/** Four significant digits: nobody measures finer, and a log is read by people. */
function rounded<Q extends Quantity>(one: Q): Q {
  return { ...one, ...quantity(big(one.value).toSignificantDigits(4), one.unit) }
}
