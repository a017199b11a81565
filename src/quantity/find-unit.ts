import { ALIASES, BARE_OUNCE } from './aliases.ts'
import type { Result } from './result.ts'
import { fail, ok } from './result.ts'
import type { Dimension, UnitId } from './units.ts'
import { dimensionOf, isUnitId, unitIds } from './units.ts'

/** Words between an amount and what it is spread over. */
export const PER =
  /\s*\/\s*|\s+(?:per|por cada|por|cada|every|for every|for each|covers?|treats?|cubren?|tratan?|rinden? para|alcanzan? para)\s+/i

const byAlias = new Map<string, UnitId>()
for (const id of unitIds) for (const alias of ALIASES[id] ?? []) byAlias.set(alias, id)

const bareOunces = new Set(BARE_OUNCE)

export type UnitTrouble =
  | { readonly kind: 'bare-ounce' }
  | { readonly kind: 'unknown'; readonly suggestion: UnitId | undefined }

/** Lower case, no dots, brackets and hyphens as spaces: the form in which aliases are kept. */
export function unitKey(text: string): string {
  return text
    .toLowerCase()
    .replace(/[.^*]/g, '')
    .replace(/[()[\]_-]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
}

/**
 * The unit that a plain text names. `ounce` says what a bare ounce is when the product's form is known.
 * An unknown word comes back with the nearest known unit among `wanted`, if one is near.
 */
export function findUnit(
  text: string,
  wanted: readonly Dimension[],
  ounce?: 'oz wt' | 'fl oz',
): Result<UnitId, UnitTrouble> {
  const key = unitKey(text)
  if (bareOunces.has(key)) return ounce ? ok(ounce) : fail({ kind: 'bare-ounce' })
  const direct = byAlias.get(key)
  if (direct) return ok(direct)
  return findQuotient(key, ounce) ?? fail({ kind: 'unknown', suggestion: nearestUnit(key, wanted) })
}

/** `gal/min`, `ft per min`, `miles per hour`: two units that together are one. */
function findQuotient(key: string, ounce?: 'oz wt' | 'fl oz'): Result<UnitId, UnitTrouble> | undefined {
  const [above, below, more] = key.split(PER)
  if (above === undefined || below === undefined || more !== undefined) return undefined
  const under = byAlias.get(below)
  if (under === undefined || dimensionOf(under) !== 'time') return undefined
  if (bareOunces.has(above) && ounce === undefined) return fail({ kind: 'bare-ounce' })
  const over = bareOunces.has(above) ? ounce : byAlias.get(above)
  const id = over === 'mi' && under === 'h' ? 'mph' : `${over}/${under}`
  return isUnitId(id) ? ok(id) : undefined
}

/** Does the text count ounces without saying of what kind? */
export function hasBareOunce(text: string): boolean {
  return unitKey(text.replace(/[\d,]/g, ' '))
    .split(PER)
    .some((part) => bareOunces.has(part.replace(/\b(ai|ae|product|producto)\b/g, '').trim()))
}

function nearestUnit(key: string, wanted: readonly Dimension[]): UnitId | undefined {
  if (key === '' || key.length > 30) return undefined
  let best: { id: UnitId; distance: number } | undefined
  for (const [alias, id] of byAlias) {
    if (wanted.length > 0 && !wanted.includes(dimensionOf(id))) continue
    const distance = editDistance(key, alias)
    const allowed = Math.min(alias.length, key.length) <= 2 ? 1 : alias.length <= 5 ? 1 : 2
    if (distance <= allowed && distance < alias.length && (!best || distance < best.distance))
      best = { id, distance }
  }
  return best?.id
}

/** Insertions, deletions, replacements and swaps of neighbors between two short texts. */
export function editDistance(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 2) return 3
  let before: number[] = []
  let row = Array.from({ length: b.length + 1 }, (_, index) => index)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) {
      const cost = a[i - 1] === b[j - 1] ? 0 : 1
      let value = Math.min((next[j - 1] ?? 0) + 1, (row[j] ?? 0) + 1, (row[j - 1] ?? 0) + cost)
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        value = Math.min(value, (before[j - 2] ?? 0) + 1)
      next.push(value)
    }
    before = row
    row = next
  }
  return row[b.length] ?? 0
}
