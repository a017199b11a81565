import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Answer, assess, type Character, nextQuestion, type Taxon, type Walk } from '#src/key/index.ts'
import { modelOf } from '#src/key/model.ts'
import { posteriorOf } from '#src/key/posterior.ts'
import { DEFAULT_SETTINGS } from '#src/key/settings.ts'
import { readKey } from '../../data/taxa/load.ts'

const key = readKey()
const model = modelOf(key, DEFAULT_SETTINGS)
const turfs = key.taxa.filter((taxon) => taxon.role !== 'weed')
const RUNS = { numRuns: 120 }

/** Any answer to any character, true of no plant in particular. */
const anyAnswer: fc.Arbitrary<Answer> = fc
  .constantFrom(...key.characters)
  .chain((character) =>
    fc
      .constantFrom(...character.states)
      .map((state): Answer => ({ kind: 'states', character: character.id, states: [state.id] })),
  )
const anyAnswers = fc.uniqueArray(anyAnswer, { maxLength: 9, selector: (answer) => answer.character })
const anyTurf = fc.constantFrom(...turfs)

function walkOf(turf: Taxon, answers: readonly Answer[]): Walk {
  return { turf: { kind: 'record', turfs: [turf.id] }, answers: [...answers], mown: true }
}

/** Answers that are true of a plant, each with any state or number that its row permits. */
function trueAnswers(taxon: Taxon): fc.Arbitrary<Answer[]> {
  const one = key.characters.flatMap((character): fc.Arbitrary<Answer>[] => {
    const cell = taxon.cells[character.id]
    if (cell?.kind === 'states') {
      return [
        fc.constantFrom(...cell.states).map((state) => ({
          kind: 'states',
          character: character.id,
          states: [state],
        })),
      ]
    }
    if (cell?.kind !== 'range') return []
    return [
      fc.double({ min: cell.from, max: cell.to, noNaN: true }).map((value) => ({
        kind: 'range',
        character: character.id,
        from: value,
        to: value,
      })),
    ]
  })
  return fc.shuffledSubarray(one, { minLength: 1 }).chain((some) => fc.tuple(...some))
}

describe('the key', () => {
  test('does not mind the order of the answers', () => {
    fc.assert(
      fc.property(anyTurf, anyAnswers, fc.infiniteStream(fc.nat()), (turf, answers, numbers) => {
        const other = answers
          .map((answer) => ({ answer, at: numbers.next().value ?? 0 }))
          .sort((a, b) => a.at - b.at)
          .map(({ answer }) => answer)
        expect(assess(key, walkOf(turf, other))).toEqual(assess(key, walkOf(turf, answers)))
      }),
      RUNS,
    )
  })

  /** What to look at next leaves out what could not be told; all else stays. */
  function changesOnlyWhatIsAskedNext(turf: Taxon, answers: readonly Answer[], unseen: Character) {
    const before = walkOf(turf, answers)
    const after = walkOf(turf, [...answers, { kind: 'cant-tell', character: unseen.id }])
    const { open: _open, lookFor: _lookFor, compare: had, ...was } = assess(key, before)
    const { open: _isOpen, lookFor: _lookForNow, compare, ...is } = assess(key, after)
    expect(is).toEqual(was)
    expect(compare.map((one) => one.character)).not.toContain(unseen.id)
    const kept = had.filter((one) => one.character !== unseen.id)
    expect(compare.slice(0, kept.length)).toEqual(kept)
    expect(nextQuestion(key, after)?.character.id).not.toBe(unseen.id)
  }

  test('changes nothing but what is asked and looked at next on "can\'t tell"', () => {
    fc.assert(
      fc.property(anyTurf, anyAnswers, fc.constantFrom(...key.characters), (turf, answers, unseen) => {
        fc.pre(!answers.some((answer) => answer.character === unseen.id))
        changesOnlyWhatIsAskedNext(turf, answers, unseen)
      }),
      RUNS,
    )
  })

  test('compares a named weed by other marks than the one that could not be told', () => {
    const turf = turfs.find((taxon) => taxon.id === 'bermuda')
    const unseen = key.characters.find((character) => character.id === 'surface')
    if (turf === undefined || unseen === undefined) throw new Error('The key has lost bermuda or surface')
    const answers: Answer[] = [
      { kind: 'states', character: 'underground', states: ['tubers-single'] },
      { kind: 'states', character: 'stem_section', states: ['triangular'] },
    ]
    const named = assess(key, walkOf(turf, answers))
    expect(named.result).toBe('weed')
    expect(named.compare.map((one) => one.character)).toContain('surface')
    changesOnlyWhatIsAskedNext(turf, answers, unseen)
  })

  test('gives the same answer to the same walk', () => {
    fc.assert(
      fc.property(anyTurf, anyAnswers, (turf, answers) => {
        const again = JSON.parse(JSON.stringify(walkOf(turf, answers))) as Walk
        expect(nextQuestion(key, again)?.character.id).toBe(
          nextQuestion(key, walkOf(turf, answers))?.character.id,
        )
      }),
      RUNS,
    )
  })

  test("never names a lawn's own grass a weed when it is described truly", () => {
    fc.assert(
      fc.property(
        anyTurf.chain((turf) => fc.tuple(fc.constant(turf), trueAnswers(turf))),
        ([turf, answers]) => {
          expect(assess(key, walkOf(turf, answers)).result).not.toBe('weed')
        },
      ),
      { numRuns: 400 },
    )
  })

  test('never names a turf a weed where the lawn is not known', () => {
    fc.assert(
      fc.property(
        anyTurf.chain((turf) => fc.tuple(fc.constant(turf), trueAnswers(turf))),
        ([, answers]) => {
          const result = assess(key, { turf: { kind: 'unknown' }, answers, mown: true })
          const named = key.taxa.find((taxon) => taxon.id === result.taxon?.id)
          if (result.result === 'weed') expect(named?.role).toBe('weed')
        },
      ),
      RUNS,
    )
  })

  test('never lowers the place of a plant on an answer that only it can give', () => {
    const unique = key.characters.flatMap((character) =>
      character.states.flatMap((state) => {
        const givers = key.taxa.filter((taxon) => {
          const cell = taxon.cells[character.id]
          if (cell?.kind === 'blank') return character.kind !== 'hallmark'
          return cell?.kind === 'states' && cell.states.includes(state.id)
        })
        const [only, ...others] = givers
        return only !== undefined && others.length === 0 && state.neutral !== true
          ? [{ taxon: only, character: character.id, state: state.id }]
          : []
      }),
    )
    expect(unique.length).toBeGreaterThan(10)
    fc.assert(
      fc.property(fc.constantFrom(...unique), anyTurf, anyAnswers, (one, turf, answers) => {
        const others = answers.filter((answer) => answer.character !== one.character)
        const before = placeOf(one.taxon, walkOf(turf, others))
        const told: Answer = { kind: 'states', character: one.character, states: [one.state] }
        expect(placeOf(one.taxon, walkOf(turf, [...others, told]))).toBeLessThanOrEqual(before)
      }),
      { numRuns: 300 },
    )
  })

  test('never holds a hallmark that is not seen against a plant', () => {
    fc.assert(
      fc.property(anyTurf, anyAnswers, (turf, answers) => {
        const others = answers.filter((answer) => answer.character !== 'special')
        const none: Answer = { kind: 'states', character: 'special', states: ['none-of-these'] }
        const before = assess(key, walkOf(turf, others))
        const after = assess(key, walkOf(turf, [...others, none]))
        expect(after.remaining).toEqual(before.remaining)
      }),
      RUNS,
    )
  })
})

/** How many plants are more probable than this one. */
function placeOf(taxon: Taxon, walk: Walk): number {
  const { share } = posteriorOf(model, walk)
  const own = share[model.indexOf.get(taxon.id) ?? -1] ?? 0
  return share.filter((other) => other > own * (1 + 1e-9)).length
}
