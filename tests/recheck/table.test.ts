import { describe, expect, test } from 'vitest'
import type { Treated } from '#src/recheck/table.ts'
import { findRow, Lifecycle, PlantGroup, ScheduleTable } from '#src/recheck/table.ts'
import { readInjuryScale } from '../../data/recheck/load.ts'
import { readKey } from '../../data/taxa/load.ts'
import { table } from './build.ts'

describe('the default schedule', () => {
  test.each<[string, Treated, string]>([
    ['an annual grass', { group: 'grass', lifecycles: ['summer-annual'] }, 'annual-grass'],
    ['a perennial grass', { group: 'grass', lifecycles: ['perennial'] }, 'perennial-grass'],
    [
      'a grass that may be either',
      { group: 'grass', lifecycles: ['annual', 'perennial'] },
      'perennial-grass',
    ],
    ['a grass nobody knows more about', { group: 'grass', lifecycles: [] }, 'perennial-grass'],
    ['a sedge', { group: 'sedge', lifecycles: ['perennial'] }, 'sedge'],
    [
      'a sedge burnt by contact',
      { group: 'sedge', lifecycles: ['perennial'], action: 'contact' },
      'sedge-contact',
    ],
    ['a broadleaf', { group: 'broadleaf', lifecycles: ['biennial'] }, 'broadleaf'],
    ['a rush', { group: 'rush', lifecycles: ['perennial'] }, 'any'],
    ['an unknown plant', { group: 'unknown', lifecycles: [] }, 'any'],
    ['anything under a spot kill', { group: 'sedge', lifecycles: [], nonSelective: true }, 'non-selective'],
  ])('%s has the row %s', (_, treated, row) => {
    expect(findRow(table, treated).id).toBe(row)
  })

  test('knows every group and life cycle of the key', () => {
    const statesOf = (character: string) =>
      readKey().taxa.flatMap(({ cells }) => {
        const cell = cells[character]
        return cell?.kind === 'states' ? cell.states : []
      })
    expect(new Set(statesOf('group'))).toEqual(new Set(PlantGroup.options))
    expect(new Set(statesOf('lifecycle'))).toEqual(new Set(Lifecycle.options))
  })

  test('names a source for every look and for the day of judging, or says that there is none', () => {
    const sources = table.flatMap(({ looks, extras, judgeSource }) => [
      judgeSource,
      ...[...looks, ...extras].map(({ source }) => source),
    ])
    for (const source of sources)
      expect(source).toMatch(/https?:\/\/|\(20\d\d trials\)|\(abstract\)|^common practice, no source$/)
  })

  test('begins with a look at the turf, which decides nothing', () => {
    for (const { looks } of table) {
      expect(looks[0]?.purpose).toBe('signs')
      expect(looks[0]?.lookFor).toContain('turf-injury')
    }
  })

  const [any] = table.slice(-1)
  const looks = any?.looks ?? []
  test.each([
    ['no row for everything', [{ ...any, groups: ['grass'] }]],
    ['two rows of one name', [any, any]],
    ['windows that overlap', [{ ...any, looks: [looks[0], { ...looks[1], fromDay: 14 }, looks[2]] }]],
    [
      'a window that ends before it begins',
      [{ ...any, looks: [{ ...looks[0], toDay: 3 }, looks[1], looks[2]] }],
    ],
    ['no look that decides', [{ ...any, looks: [looks[0], looks[1]] }]],
    [
      'a first look that scores',
      [{ ...any, looks: [{ ...looks[0], purpose: 'score' }, looks[1], looks[2]] }],
    ],
    ['a deciding look before the day of judging', [{ ...any, judgeFromDay: 90 }]],
    ['two looks of one name', [{ ...any, looks: [looks[0], { ...looks[1], id: 'first' }, looks[2]] }]],
    ['a look nobody gave a source', [{ ...any, judgeSource: '' }]],
  ])('refuses %s', (_, rows) => {
    expect(ScheduleTable.safeParse(rows).success).toBe(false)
  })
})

test('the steps of turf injury run from 9 to 1, each with its source', () => {
  expect(readInjuryScale().map(({ step }) => step)).toEqual([9, 8, 7, 6, 5, 4, 3, 2, 1])
})
