import { describe, expect, test } from 'vitest'
import { mayI } from '#src/label/allow.ts'
import type { LabelEntry, Registration } from '#src/label/entry.ts'
import type { Situation } from '#src/label/situation.ts'
import { entry, reasonOf, situation, standing } from './build.ts'

const registered = (registration: Registration) => entry({ registration })
const local = registered({ number: '9999999-1', specialLocalNeed: 'NC-240001' })

const rows: readonly [what: string, label: LabelEntry, asked: Partial<Situation>, stands: string[]][] = [
  ['a file symbol', registered({ number: '9999999-RE' }), {}, ['refusal label.registration-file-symbol']],
  [
    'an establishment number',
    registered({ number: '9999999-NC-1' }),
    {},
    ['refusal label.registration-establishment'],
  ],
  ['no number that could be one', registered({ number: '12' }), {}, ['refusal label.registration-malformed']],
  [
    'an experimental permit',
    registered({ number: '9999999-EUP-1' }),
    {},
    ['hold label.registration-experimental'],
  ],
  ['no number at all', registered({}), {}, ['refusal label.registration-missing']],
  ['minimum risk, exempt', registered({ exempt25b: true }), {}, []],
  ['a local need in its state', local, { state: 'NC' }, []],
  ['a local need elsewhere', local, { state: 'NY' }, ['refusal label.local-need-elsewhere']],
  [
    'a state in which it is not registered',
    registered({ number: '9999999-1', states: ['NC', 'VA'] }),
    { state: 'GA' },
    ['refusal label.not-registered-in-state'],
  ],
  [
    'restricted use without a certified person',
    entry({ restricted: true }),
    { licensed: false },
    ['refusal label.restricted-use'],
  ],
  ['restricted use with one', entry({ restricted: true }), {}, []],
  ['never confirmed', entry(), { lastConfirmedOn: null }, ['hold label.never-confirmed']],
  ['confirmed 334 days ago', entry(), { lastConfirmedOn: '2024-07-31' }, []],
  ['confirmed a year ago', entry(), { lastConfirmedOn: '2024-06-30' }, []],
  ['a day over a year ago', entry(), { lastConfirmedOn: '2024-06-29' }, ['heads-up label.confirm-due']],
  ['a year and 60 days ago', entry(), { lastConfirmedOn: '2024-05-01' }, ['heads-up label.confirm-due']],
  ['a year and 61 days ago', entry(), { lastConfirmedOn: '2024-04-30' }, ['hold label.confirm-overdue']],
]

describe('papers', () => {
  test.each(rows)('%s', (_what, label, asked, stands) => {
    expect(standing(mayI(label, situation(asked)))).toEqual(stands)
  })

  test('a month before the year is over it is told and stops nobody', () => {
    const soon = mayI(entry(), situation({ lastConfirmedOn: '2024-07-30' }))
    expect(soon.outcome).toBe('answer')
    expect(reasonOf(soon, 'label.confirm-soon')?.with).toEqual({ due: { day: '2025-07-30' } })
    expect(mayI(entry(), situation({ lastConfirmedOn: '2024-07-31' })).reasons).toEqual([])
  })

  test('the strictest reason decides and comes first, and all are kept', () => {
    const verdict = mayI(
      entry({ restricted: true, nonSelective: true }),
      situation({ licensed: false, lastConfirmedOn: null, weed: 'dandelion' }),
    )
    expect(verdict.outcome).toBe('refusal')
    expect(standing(verdict)).toEqual([
      'refusal label.restricted-use',
      'hold label.weed-not-listed',
      'hold label.never-confirmed',
      'heads-up label.non-selective',
    ])
  })
})
