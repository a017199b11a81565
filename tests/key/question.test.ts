import { describe, expect, test } from 'vitest'
import {
  type Answer,
  assess,
  nextQuestion,
  type TurfContext,
  type Walk,
  withAnswer,
  withoutLast,
} from '#src/key/index.ts'
import { readKey } from '../../data/taxa/load.ts'

const key = readKey()

function states(character: string, ...list: string[]): Answer {
  return { kind: 'states', character, states: list }
}

function walkOf(turf: string, answers: readonly Answer[], guess?: string[]): Walk {
  const context: TurfContext = { kind: 'record', turfs: [turf] }
  return { turf: context, answers: [...answers], mown: true, ...(guess === undefined ? {} : { guess }) }
}

/** Answers every question as the plant's first listed state until the key stops. */
function walkToEnd(plant: string, turf: string): Walk {
  const taxon = key.taxa.find((one) => one.id === plant)
  let walk = walkOf(turf, [])
  for (let step = 0; step < 30; step++) {
    const question = nextQuestion(key, walk)
    if (question === null) return walk
    const cell = taxon?.cells[question.character.id]
    const id = question.character.id
    if (cell?.kind === 'states') walk = withAnswer(walk, states(id, cell.states[0] ?? ''))
    else if (cell?.kind === 'range') {
      const middle = (cell.from + cell.to) / 2
      walk = withAnswer(walk, { kind: 'range', character: id, from: middle, to: middle })
    } else walk = withAnswer(walk, { kind: 'cant-tell', character: id })
  }
  throw new Error('The walk did not end')
}

describe('the next question', () => {
  test('is never one that was answered, unless a second look pays', () => {
    const walk = walkOf('kbg', [states('group', 'broadleaf'), { kind: 'cant-tell', character: 'leaf_type' }])
    const question = nextQuestion(key, walk)
    expect(['group', 'leaf_type']).not.toContain(question?.character.id)
  })

  test('does not ask for parts of a seed head that is not there', () => {
    let walk = walkOf('bermuda', [states('group', 'grass'), states('seedhead', 'none-seen')])
    for (let step = 0; step < 8; step++) {
      const question = nextQuestion(key, walk)
      if (question === null) break
      expect(['branches', 'seedhead_color']).not.toContain(question.character.id)
      walk = withAnswer(walk, { kind: 'cant-tell', character: question.character.id })
    }
  })

  test('offers at most 25 buttons with "no such part" and "can\'t tell"', () => {
    const question = nextQuestion(key, walkOf('bermuda', []))
    expect((question?.states.length ?? 99) + 2).toBeLessThanOrEqual(25)
  })

  test.each(['dandelion', 'crab-large', 'white-clover', 'nutsedge-yellow', 'henbit', 'kikuyu'])(
    'leads a faultless observer to %s in a tall fescue lawn',
    (plant) => {
      const walk = walkToEnd(plant, 'tall-fescue')
      const result = assess(key, walk)
      expect(result.result).toBe('weed')
      expect(result.taxon?.members.map((member) => member.id)).toContain(plant)
      expect(walk.answers.length).toBeLessThanOrEqual(13)
    },
  )

  test('leads a faultless observer of the lawn itself to "own grass"', () => {
    expect(assess(key, walkToEnd('tall-fescue', 'tall-fescue')).result).toBe('own-turf')
  })

  test('with a guess asks what tells it from the lawn, and names under the same thresholds', () => {
    const answers = [states('group', 'grass'), states('seedhead', 'fingers')]
    const guessed = walkOf('bermuda', answers, ['goosegrass'])
    expect(nextQuestion(key, guessed)).not.toBeNull()
    expect(assess(key, guessed).result).toBe(assess(key, walkOf('bermuda', answers)).result)
  })

  test('offers a second look at an answer that speaks against the leading plant', () => {
    const answers = [
      states('leaf_type', 'three-leaflets'),
      states('petals', 'pea'),
      states('leaf_margin', 'lobed-back'),
    ]
    const again = walkOf('kbg', answers)
    expect(assess(key, again).likelyWrong.map((one) => one.character)).toContain('leaf_margin')
  })
})

describe('a walk', () => {
  test('goes back by dropping its last answer', () => {
    const before = walkOf('kbg', [states('group', 'grass')])
    expect(withoutLast(withAnswer(before, states('tip', 'boat')))).toEqual(before)
  })

  test('knows a second look that agrees from one that does not', () => {
    const first = withAnswer(walkOf('kbg', []), states('tip', 'boat'))
    expect(withAnswer(first, states('tip', 'boat')).answers[0]).toMatchObject({ confirmed: true })
    expect(withAnswer(first, states('tip', 'blunt')).answers[0]).toMatchObject({
      confirmed: false,
      states: ['blunt'],
    })
    expect(withAnswer(first, { kind: 'cant-tell', character: 'tip' }).answers[0]).toMatchObject({
      states: ['boat'],
      confirmed: false,
    })
  })

  test('that nothing fits says so and offers two answers again', () => {
    const result = assess(
      key,
      walkOf('bermuda', [
        states('group', 'sedge'),
        states('leaf_type', 'peltate'),
        states('petals', 'two-lipped'),
        states('smell', 'onion'),
        states('milky_sap', 'yes'),
      ]),
    )
    expect(result.result).toBe('hold')
    expect(result.holdReason).toBe('none-fits')
    expect(result.likelyWrong).toHaveLength(2)
    expect(result.advice).toContain('check-answers')
  })

  test('without answers holds and lists every plant', () => {
    const result = assess(key, walkOf('bermuda', []))
    expect(result).toMatchObject({ result: 'hold', open: true, spokeFor: [], spokeAgainst: [] })
    expect(result.remaining).toHaveLength(106)
  })
})
