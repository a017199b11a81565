import { describe, expect, test } from 'vitest'
import { mayI } from '#src/label/allow.ts'
import type { Situation } from '#src/label/situation.ts'
import { allowDefaults } from '#src/label/situation.ts'
import { entry, line, reasonOf, situation, standing } from './build.ts'

const BERMUDA = { words: 'bermudagrass', taxa: ['bermuda', 'bermuda-hybrid'] }
const FESCUE = { words: 'tall fescue', taxa: ['tall-fescue'] }
const CLOVER = { words: 'white clover', taxa: ['white-clover'] }

const many = entry({
  rateLines: [
    line({ id: 'fescue-spring', seasons: ['spring'], treatment: 'first' }),
    line({ id: 'fescue-fall', seasons: ['fall'] }),
    line({ id: 'fescue-clover', weeds: [CLOVER] }),
    line({ id: 'bermuda', turfs: [BERMUDA] }),
    line({ id: 'bermuda-dormant', turfs: [BERMUDA], weeds: [CLOVER], dormantOnly: true }),
  ],
  excludedTurfs: [
    { words: 'creeping bentgrass', taxa: ['creeping-bent'], line: 'Not on creeping bentgrass.', page: '3' },
  ],
})

const rows: readonly [what: string, asked: Partial<Situation>, stands: string[], lines: string[]][] = [
  ['one line that fits', { season: 'fall' }, [], ['fescue-fall']],
  [
    'several lines: somebody must choose',
    { weed: 'nutsedge-purple' },
    ['question label.choose-line'],
    ['fescue-spring', 'fescue-fall'],
  ],
  ['a chosen line', { line: 'fescue-spring' }, [], ['fescue-spring']],
  [
    'a line that nobody knows',
    { line: 'nowhere', season: 'fall' },
    ['question label.line-unknown'],
    ['fescue-fall'],
  ],
  ['a weed by the words of the label', { weed: 'White Clover' }, [], ['fescue-clover']],
  ['a weed by one name out of a group', { weed: 'nutsedge', season: 'fall' }, [], ['fescue-fall']],
  ['a repeat treatment', { treatment: 'repeat' }, [], ['fescue-fall']],
  [
    'a turf that the label excludes',
    { turfs: ['creeping-bent'], line: 'bermuda' },
    ['refusal label.turf-excluded', 'refusal label.turf-not-listed'],
    ['bermuda'],
  ],
  [
    'a turf that only another line lists',
    { turfs: ['tall-fescue'], line: 'bermuda' },
    ['refusal label.turf-not-on-line'],
    ['bermuda'],
  ],
  [
    'a turf that no line lists',
    { turfs: ['kikuyu'], line: 'fescue-fall' },
    ['refusal label.turf-not-listed'],
    ['fescue-fall'],
  ],
  [
    'an overseed that the line does not list',
    { turfs: ['bermuda', 'perennial-rye'], line: 'bermuda' },
    ['refusal label.turf-not-listed'],
    ['bermuda'],
  ],
  [
    'two turfs that the label lists on different lines',
    { turfs: ['bermuda', 'tall-fescue'], season: 'fall', weed: 'nutsedge-yellow' },
    ['hold label.turf-split', 'question label.choose-line'],
    ['fescue-fall', 'bermuda'],
  ],
  [
    'nobody knows the turf',
    { turfs: 'unknown', line: 'fescue-fall' },
    ['hold label.turf-unknown'],
    ['fescue-fall'],
  ],
  [
    'an area without any turf noted',
    { turfs: [], line: 'fescue-fall' },
    ['hold label.turf-unknown'],
    ['fescue-fall'],
  ],
  [
    'a dormant-only line on green turf',
    { turfs: ['bermuda'], line: 'bermuda-dormant', weed: 'white-clover', dormant: [] },
    ['refusal label.dormant-only'],
    ['bermuda-dormant'],
  ],
  [
    'a dormant-only line and nobody says how the turf is',
    { turfs: ['bermuda'], line: 'bermuda-dormant', weed: 'white-clover' },
    ['question label.dormant-unknown'],
    ['bermuda-dormant'],
  ],
  [
    'a dormant-only line on dormant turf',
    { turfs: ['bermuda'], weed: 'white-clover', dormant: ['bermuda'] },
    [],
    ['bermuda-dormant'],
  ],
  [
    'green turf drops the dormant-only line where another is left',
    { turfs: ['bermuda'], dormant: [] },
    [],
    ['bermuda'],
  ],
  [
    'a weed that the label does not list',
    { weed: 'dandelion', line: 'fescue-fall' },
    ['hold label.weed-not-listed'],
    ['fescue-fall'],
  ],
  [
    'the same in New York',
    { weed: 'dandelion', line: 'fescue-fall', state: 'NY' },
    ['refusal label.weed-refused-in-state'],
    ['fescue-fall'],
  ],
  [
    'the same in another state',
    { weed: 'dandelion', line: 'fescue-fall', state: 'NC' },
    ['hold label.weed-not-listed'],
    ['fescue-fall'],
  ],
  [
    'a season that the label does not give',
    { season: 'winter', line: 'fescue-fall' },
    ['refusal label.season-not-listed'],
    ['fescue-fall'],
  ],
  [
    'a repeat on a first-only line',
    { treatment: 'repeat', line: 'fescue-spring' },
    ['refusal label.treatment-not-listed'],
    ['fescue-spring'],
  ],
]

describe('which rate line holds', () => {
  test.each(rows)('%s', (_what, asked, stands, lines) => {
    const verdict = mayI(many, situation(asked))
    expect(standing(verdict)).toEqual(stands)
    expect(verdict.rateLines.map(({ id }) => id)).toEqual(lines)
  })

  test('a refusal carries the words and page of the label', () => {
    const refused = mayI(
      many,
      situation({ turfs: ['creeping-bent'], names: { 'creeping-bent': 'Creeping bentgrass' } }),
    )
    expect(reasonOf(refused, 'label.turf-excluded')).toEqual({
      id: 'label.turf-excluded',
      outcome: 'refusal',
      line: 'Not on creeping bentgrass.',
      page: '3',
      with: { turf: 'Creeping bentgrass' },
    })
  })

  test('a label for its listed weeds only refuses others everywhere', () => {
    const narrow = entry({ limits: { onlyListedWeeds: { line: 'For listed weeds only.' } } })
    expect(standing(mayI(narrow, situation({ weed: 'dandelion' })))).toEqual([
      'refusal label.weed-only-listed',
    ])
  })

  test('a line that names no weeds is for all of them', () => {
    const { weeds: _, ...silent } = line()
    const open = entry({ rateLines: [{ ...silent, turfs: [FESCUE] }] })
    expect(standing(mayI(open, situation({ weed: 'dandelion' })))).toEqual([])
  })

  test('the states that are narrower are a setting', () => {
    const settings = { ...allowDefaults, unlistedWeedRefusedIn: ['NC'] }
    const verdict = mayI(many, situation({ weed: 'dandelion', line: 'fescue-fall', state: 'NC' }), settings)
    expect(verdict.outcome).toBe('refusal')
  })

  test('no rate is given for a choice that is not made', () => {
    expect(mayI(many, situation()).ceilings).toEqual([])
  })
})
