import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { once } from '#src/memory/once.ts'
import { remember, rememberEqual } from '#src/memory/remember.ts'

/** A work that counts how often it is done. */
function counted<Given, Made>(work: (given: Given) => Made) {
  const done: Given[] = []
  return {
    done,
    work: (given: Given) => {
      done.push(given)
      return work(given)
    },
  }
}

describe('what is remembered', () => {
  test('is worked out once for each text, as long as it is among the newest', () => {
    const length = counted((text: string) => text.length)
    const known = remember(length.work, 2)
    expect(['a', 'a', 'bb', 'a'].map(known)).toEqual([1, 1, 2, 1])
    expect(length.done).toEqual(['a', 'bb'])
    known('ccc')
    known('a')
    expect(length.done).toEqual(['a', 'bb', 'ccc', 'a'])
  })

  test('of plain data is worked out once for what is equal, whichever object holds it', () => {
    const sum = counted((given: { readonly a: number; readonly b?: readonly number[] }) =>
      (given.b ?? []).reduce((one, other) => one + other, given.a),
    )
    const known = rememberEqual(sum.work, 10)
    expect(known({ a: 1, b: [2, 3] })).toBe(6)
    expect(known({ a: 1, b: [2, 3] })).toBe(6)
    expect(known({ a: 1, b: [3, 2] })).toBe(6)
    expect(sum.done).toHaveLength(2)
  })

  test('never differs from what is worked out anew, however little is kept', () => {
    const work = (given: readonly [string, number]) => ({ said: `${given[0]} ${given[1]}` })
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.string({ maxLength: 2 }), fc.integer({ min: 0, max: 3 }))),
        fc.integer({ min: 1, max: 4 }),
        (asked, most) => {
          const known = rememberEqual(work, most)
          for (const one of asked) expect(known(one)).toEqual(work(one))
        },
      ),
    )
  })

  test('a work that fails is tried again', () => {
    let times = 0
    const known = rememberEqual((given: { readonly at: number }) => {
      times += 1
      if (times === 1) throw new RangeError('Cannot yet')
      return given.at
    }, 5)
    expect(() => known({ at: 7 })).toThrow(RangeError)
    expect(known({ at: 7 })).toBe(7)
  })
})

test('what is made when it is asked for is made once, and not before', () => {
  const made = counted((_: undefined) => undefined)
  const ask = once(() => made.work(undefined))
  expect(made.done).toHaveLength(0)
  expect([ask(), ask()]).toEqual([undefined, undefined])
  expect(made.done).toHaveLength(1)
})
