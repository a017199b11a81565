import { type Model, plantGroup } from './model.ts'
import type { LookAlike, Words } from './schema.ts'

/** One look-alike entry about these plants: what it is taken for and how to check. */
export type LookAlikeCheck = {
  readonly n: number
  readonly plants: readonly string[]
  readonly takenFor: readonly string[]
  readonly tells: readonly string[]
  readonly needs: LookAlike['needs']
  readonly turfRisk: LookAlike['turfRisk']
  readonly words: Words
  readonly sources: readonly string[]
}

/** The look-alikes of these plants (ids), the most dangerous for turf first. */
export function lookAlikesOf(model: Model, ids: readonly string[]): LookAlikeCheck[] {
  const wanted = new Set(ids)
  const risk = ['high', 'medium', 'low', 'none']
  return model.key.lookAlikes
    .flatMap((pair) => {
      const sides = pair.sides.map((side) => expandSide(model, side))
      const named = sides.map((side) => side.some((id) => wanted.has(id)))
      const own = sides.filter((_, index) => named[index])
      const others = pair.sides.filter((_, index) => !named[index])
      if (own.length === 0) return []
      const takenFor = (others.length > 0 ? others : pair.sides).flat()
      return [{ pair, plants: own.flat().filter((id) => wanted.has(id)), takenFor }]
    })
    .sort((a, b) => risk.indexOf(a.pair.turfRisk) - risk.indexOf(b.pair.turfRisk) || a.pair.n - b.pair.n)
    .map(({ pair, plants, takenFor }) => ({
      n: pair.n,
      plants: [...new Set(plants)],
      takenFor,
      tells: pair.tells,
      needs: pair.needs,
      turfRisk: pair.turfRisk,
      words: pair.words,
      sources: pair.sources,
    }))
}

/** The plants of one side of a look-alike entry; `@grass` stands for every plant of that plant group. */
export function expandSide(model: Model, side: readonly string[]): string[] {
  return side.flatMap((id) =>
    id.startsWith('@')
      ? model.key.taxa.filter((taxon) => plantGroup(taxon) === id.slice(1)).map((taxon) => taxon.id)
      : [id],
  )
}
