import { describe, expect, test } from 'vitest'
import { type Answer, assess, type Cell, type LookAlike } from '#src/key/index.ts'
import { expandSide } from '#src/key/lookAlikes.ts'
import { modelOf } from '#src/key/model.ts'
import { posteriorOf } from '#src/key/posterior.ts'
import { DEFAULT_SETTINGS } from '#src/key/settings.ts'
import { readKey } from '../../data/taxa/load.ts'

const key = readKey()
const model = modelOf(key, DEFAULT_SETTINGS)

/** An answer that this cell allows and the other does not; undefined where the two overlap throughout. */
function tellingAnswer(
  character: string,
  own: Cell | undefined,
  other: Cell | undefined,
): Answer | undefined {
  if (own?.kind === 'states') {
    const states = own.states.filter((state) => other?.kind !== 'states' || !other.states.includes(state))
    const state = states.find((one) => one !== 'none-seen')
    return state === undefined || other?.kind === 'blank' || other === undefined
      ? undefined
      : { kind: 'states', character, states: [state] }
  }
  if (own?.kind === 'range' && other?.kind === 'range') {
    if (own.to > other.to * 1.3) return { kind: 'range', character, from: own.to, to: own.to }
    if (own.from < other.from / 1.3) return { kind: 'range', character, from: own.from, to: own.from }
  }
  return undefined
}

function cellOf(id: string, character: string): Cell | undefined {
  return key.taxa.find((taxon) => taxon.id === id)?.cells[character]
}

function pairsOf(entry: LookAlike): [string, string][] {
  const sides = entry.sides.map((side) => expandSide(model, side))
  return sides.flatMap((side, at) =>
    sides
      .filter((_, other) => other !== at)
      .flatMap((others) => side.flatMap((a) => others.map((b): [string, string] => [a, b])))
      .filter(([a, b]) => a !== b),
  )
}

describe('every look-alike of the table', () => {
  test.each(key.lookAlikes)('$n $words.en', (entry) => {
    for (const [plant, other] of pairsOf(entry)) {
      const answers = entry.tells.flatMap(
        (character) => tellingAnswer(character, cellOf(plant, character), cellOf(other, character)) ?? [],
      )
      const walk = { turf: { kind: 'record' as const, turfs: ['bermuda'] }, answers, mown: true }
      const { logLikelihood } = posteriorOf(model, walk)
      const [mine, theirs] = [plant, other].map((id) => logLikelihood[model.indexOf.get(id) ?? -1] ?? 0)
      if (answers.length > 0) expect(mine ?? 0, `${plant} against ${other}`).toBeGreaterThan(theirs ?? 0)
      else {
        const inOther = assess(key, { ...walk, turf: { kind: 'record', turfs: [other] } })
        expect(inOther.result).toBe('hold')
      }
    }
  })

  test('is shown with the characters that tell the plants apart', () => {
    const seen = assess(key, {
      turf: { kind: 'record', turfs: ['centipede'] },
      answers: [
        { kind: 'states', character: 'habit', states: ['stolons'] },
        { kind: 'states', character: 'vernation', states: ['folded'] },
        { kind: 'states', character: 'tip', states: ['blunt'] },
      ],
      mown: true,
    })
    const carpet = seen.lookAlikes.find((one) => one.n === 1)
    expect(carpet?.tells[0]).toBe('seedhead')
    expect(carpet?.turfRisk).toBe('high')
  })
})
