import { describe, expect, test } from 'vitest'
import { allowDefaults } from '#src/label/situation.ts'
import { readData } from '#src/project.ts'
import type { ElementId } from '#src/record/element-ids.ts'
import { requirementsOf, ruleSetFor, tablesFor, tablesOf } from '#src/record/rule-set.ts'
import type { RuleSource, StateRules } from '#src/record/state-rules.ts'
import { readStateRules, sourceNamed } from '#src/record/state-rules.ts'
import { tables } from './build.ts'

/** What each rule asks, as its text says it: `element` always, `element?condition` under a condition, `a+b|c+d` a choice. */
const ASKED: readonly { readonly state: string; readonly source: string; readonly asks: string }[] = [
  {
    state: 'TX',
    source: '4 Texas Administrative Code 7.33 (b) (1)-(14), (c)',
    asks: 'date start-time customer-name place product registration rate total-mix target site area wind-speed?outdoors wind-from?outdoors temperature method applicator license training?uncertified site-order?several-sites',
  },
  {
    state: 'CA',
    source: '3 California Code of Regulations 6624 (b) (1)-(6)',
    asks: 'date start-time customer-name place site area product registration amount state-number?state-number-on-label',
  },
  {
    state: 'NY',
    source: 'New York Environmental Conservation Law 33-1205 (1); markers by 33-1003, contract by 33-1001',
    asks: 'registration product amount date place place-zip rate method target posting notices',
  },
  {
    state: 'OH',
    source:
      'Ohio Administrative Code 901:5-11-10 (A)(2), rest of the list by Ohio State University; signs by 901:5-11-09',
    asks: 'applicator customer-name customer-address date site area place product registration amount total-mix?diluted method start-time end-time wind-speed?outdoors wind-from?outdoors temperature?outdoors helpers?helped posting',
  },
  {
    state: 'MN',
    source: 'Minnesota Statutes 18B.37 subd. 2 (a) (1)-(8); signs by 18B.09',
    asks: 'date end-time product registration rate area temperature?outdoors wind-speed?outdoors wind-from?outdoors place customer-name customer-address applicator license company company-address posting',
  },
  {
    state: 'WI',
    source: 'Wisconsin ATCP 29.21 (2) (a)-(h); signs by ATCP 29.56 (3)',
    asks: 'applicator customer-name customer-address site place place-specific date start-time end-time product registration rate+area|concentration+amount mixing-place?not-at-shop posting',
  },
  {
    state: 'NJ',
    source: 'New Jersey 7:30-7.3 (a) 1-6; signs by 7:30-9.13',
    asks: 'date end-time?label-interval re-entry?label-interval place county product actives registration recipe total-mix area?rate-per-area applicator license posting',
  },
  {
    state: 'ME',
    source: '01-026 Code of Maine Rules ch. 50 s. 1 (A) (II) a-c; signs by ch. 28 s. 3',
    asks: 'place site target customer-name?for-hire customer-address?for-hire area?broadcast extent?spot date start-time product registration actives re-entry?label-interval method carrier-kind?other-diluent applicator license helpers?uncertified company amount?restricted posting',
  },
  {
    state: 'MA',
    source: '333 Code of Massachusetts Regulations 10.14 (1); the date, item (b), from memory',
    asks: 'place product registration amount target method applicator license unusual date',
  },
  {
    state: 'GA',
    source: 'Georgia Rules 40-21-5-.02 (a)-(k); signs by 40-21-9-.02',
    asks: 'date start-time customer-name place site area|amount target product rate method applicator unusual leftover-fate?leftover posting',
  },
  {
    state: 'NC',
    source:
      '02 North Carolina Administrative Code 09L .1402 (1)-(9); mix and keeper by the summary of the department',
    asks: 'applicator license customer-name customer-address place site area date end-time product registration rate total-mix?sprayed written-by',
  },
  {
    state: 'MD',
    source: 'Code of Maryland Regulations 15.05.01.12 A-L; signs by 15.05.01.15',
    asks: 'applicator date site target area customer-address customer-name actives registration rate concentration amount method start-time wind-speed?outdoors wind-from?outdoors posting',
  },
  {
    state: 'federal',
    source: '40 CFR 171.303 (b)(7), as listed by a compliance page; training by the EPA Plan',
    asks: 'customer-name customer-address place area site date start-time product registration amount applicator license helpers?uncertified training?uncertified',
  },
]

function asksOf(table: StateRules): readonly string[] {
  return requirementsOf([table]).map(({ required, when }) => {
    const what =
      'element' in required ? required.element : required.anyOf.map((group) => group.join('+')).join('|')
    return when === undefined ? what : `${what}?${when}`
  })
}

function tableOf(id: string): StateRules {
  const found = id === 'federal' ? tables.federal : tables.states.get(id)
  if (found === undefined) throw new RangeError(`Cannot find the table of ${id}`)
  return found
}

const allTables = [
  ...tables.states.values(),
  tables.federal,
  tables.everywhere,
  tables.fallback,
  ...tables.history,
]

describe('what each state asks', () => {
  test.each(ASKED)('$state ($source)', ({ state, asks }) => {
    expect([...asksOf(tableOf(state))].sort()).toEqual(asks.split(' ').sort())
  })

  test.each(['IL', 'WA'])('%s has a rule on signs or keeping, and the strict list for the rest', (state) => {
    const strict = asksOf(tables.fallback).filter((what) => what !== 'posting')
    expect([...asksOf(tableOf(state))].filter((what) => what !== 'posting')).toEqual(strict)
  })

  test('every state that is named has its table, and none is there that is not', () => {
    expect([...tables.states.keys()].sort()).toEqual(
      ['CA', 'GA', 'IL', 'MA', 'MD', 'ME', 'MN', 'NC', 'NJ', 'NY', 'OH', 'TX', 'WA', 'WI'].sort(),
    )
  })

  test('the strict list asks for whatever any of them asks', () => {
    const elements = (table: StateRules): readonly ElementId[] =>
      requirementsOf([table]).flatMap(({ required }) =>
        'element' in required ? [required.element] : required.anyOf.flat(),
      )
    const strict = new Set(elements(tables.fallback))
    const others = [...tables.states.values(), tables.federal, tables.everywhere].flatMap(elements)
    expect(others.filter((element) => !strict.has(element))).toEqual([])
  })
})

/** By when a record is written, how long it is kept, what is posted. The source stands in the table itself. */
const TERMS: readonly (readonly [state: string, written: string, years: number | null, down: string])[] = [
  ['TX', 'not found', 2, 'no signs'],
  ['CA', 'not found', 2, 'no signs'],
  ['NY', 'not found', 3, '24 h'],
  ['OH', 'same-day', 3, '24 h'],
  ['MN', '5 d', 5, '48 h'],
  ['WI', 'same-day', 2, 'sunset-next-day'],
  ['NJ', '24 h', 3, '72 h'],
  ['ME', 'same-day', 2, '2 d'],
  ['MA', 'not found', 3, 'no signs'],
  ['GA', 'not found', 2, 'next-day'],
  ['IL', 'same-day', 7, 'next-day'],
  ['NC', '72 h', 3, 'no signs'],
  ['MD', 'not found', 2, '48 h'],
  ['WA', 'same-day', 7, '24 h'],
]

test.each(TERMS)('%s: written %s, kept %s years, signs down after %s', (state, written, years, down) => {
  const { writtenWithin, kept, posting } = tableOf(state)
  const within = writtenWithin
  expect(
    within === null
      ? 'not found'
      : within.kind === 'same-day'
        ? 'same-day'
        : within.kind === 'hours'
          ? `${within.hours} h`
          : `${within.days} d`,
  ).toBe(written)
  expect(kept?.years).toBe(years)
  const { down: sign } = posting ?? { down: null }
  expect(
    sign === null
      ? 'no signs'
      : sign.kind === 'hours-after'
        ? `${sign.hours} h`
        : sign.kind === 'days-after'
          ? `${sign.days} d`
          : sign.kind,
  ).toBe(down)
})

describe('sources', () => {
  const named = allTables.flatMap((table) =>
    Object.entries(table.sources).map(([id, source]) => [`${table.id} ${id}`, source] as const),
  )

  test.each(named)('%s is spelled out, and dated or marked as undated', (_id, source: RuleSource) => {
    expect(source.citation.length).toBeGreaterThan(15)
    expect(source.basis === 'read').toBe(source.readOn !== null)
  })

  test('what is from memory or a proposal says so in its own words', () => {
    const undated = named.filter(([, source]) => source.basis === 'memory' || source.basis === 'proposal')
    expect(undated.filter(([, source]) => source.remark === undefined)).toEqual([])
  })

  test('each source of a table is used by it', () => {
    const unused = allTables.flatMap((table) => {
      const { sources, ...rest } = table
      const text = JSON.stringify(rest)
      return Object.keys(sources)
        .filter((id) => !text.includes(`"source":"${id}"`))
        .map((id) => `${table.id} ${id}`)
    })
    // Read beside the rule and kept for whoever checks: the older regulation, the list of places, the short rule.
    expect(unused).toEqual(['MD comar-15-20-10-13', 'MN 18b-09', 'NY dec-neighbor', 'WA wac-16-228-1322'])
  })

  test('New York alone keeps crews to the weeds on the label, as the label rules have it', () => {
    const narrow = [...tables.states.values()].filter(({ pests }) => pests?.onlyListed === true)
    expect(narrow.map(({ id }) => id)).toEqual(allowDefaults.unlistedWeedRefusedIn)
  })

  test('Ohio alone demands English by a rule that was read', () => {
    const english = [...tables.states.values()].filter(({ language }) => language !== null)
    expect(english.map(({ id }) => id)).toEqual(['OH'])
  })

  test('Wisconsin wants consent in writing before an electronic copy', () => {
    expect(tableOf('WI').consent.needs).toBe('written-before')
    expect(tableOf('TX').consent.needs).toBe('affirmative')
  })
})

describe('the rescinded federal rule', () => {
  test('is kept as history with the day on which it ended', () => {
    expect(tables.history.map(({ id, rescinded }) => `${id} ${rescinded?.on}`)).toEqual([
      'former-federal 2025-07-11',
    ])
  })

  test.each([...tables.states.keys(), 'ZZ'])(
    'is never asked in %s, not even of a restricted-use product',
    (state) => {
      const asked = tablesFor(ruleSetFor(state, tables), true).map(({ status }) => status)
      expect(asked).not.toContain('rescinded')
    },
  )

  test('cannot be made a live table by its name', () => {
    const renamed = { ...(tables.history[0] as StateRules), id: 'federal' }
    expect(() => tablesOf([renamed, tables.everywhere, tables.fallback])).toThrow('federal')
  })
})

describe('a state with no table', () => {
  test('gets the strict one: the same day, seven years', () => {
    const { state, isFallback } = ruleSetFor('ZZ', tables)
    expect(isFallback).toBe(true)
    expect([state.writtenWithin?.kind, state.kept?.years]).toEqual(['same-day', 7])
  })

  test('so does a crew that has not said where it works', () => {
    expect(ruleSetFor(undefined, tables).isFallback).toBe(true)
  })

  test('the federal list holds for restricted-use products only', () => {
    const ids = (restricted: boolean) => tablesFor(ruleSetFor('TX', tables), restricted).map(({ id }) => id)
    expect(ids(false)).toEqual(['TX', 'everywhere'])
    expect(ids(true)).toEqual(['TX', 'federal', 'everywhere'])
  })
})

describe('readStateRules()', () => {
  const texas = JSON.parse(readData('states/TX.json'))
  const read = (change: object) =>
    readStateRules('data/states/TX.json', JSON.stringify({ ...texas, ...change }))
  const wrong: readonly (readonly [what: string, change: object, problem: RegExp])[] = [
    [
      'an element that no record has',
      { required: [{ element: 'mood', source: '4-tac-7-33' }] },
      /TX\.json: required\[0\]/,
    ],
    [
      'a source that the file does not have',
      { kept: { years: 2, source: 'gone' } },
      /TX\.json: kept\.source: names no source.*"gone"/,
    ],
    ['no years of keeping', { kept: { years: 0, source: '4-tac-7-33' } }, /TX\.json: kept\.years/],
    ['a further field', { mood: 1 }, /TX\.json: .*mood/],
    ['another state than its file', { id: 'OK' }, /TX\.json: id: must be "TX"/],
    [
      'a text that was read on no day',
      { sources: { '4-tac-7-33': { basis: 'read', citation: 'Some rule', readOn: null, extent: 'part' } } },
      /TX\.json: sources\.4-tac-7-33|TX\.json: sources\["4-tac-7-33"\]/,
    ],
  ]
  test.each(wrong)('names file and field of %s', (_what, change, problem) => {
    const found = read(change)
    expect(found.ok ? '' : found.error.join('\n')).toMatch(problem)
  })

  test('says so when it is not JSON at all', () => {
    expect(readStateRules('data/states/TX.json', '{')).toEqual({
      ok: false,
      error: ['data/states/TX.json: is not JSON'],
    })
  })

  test('a source that is asked for by a wrong name is a bug', () => {
    expect(() => sourceNamed(tables.federal, 'gone')).toThrow(RangeError)
  })
})
