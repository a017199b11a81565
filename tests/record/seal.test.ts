import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { canonicalJson, isSame, type Json } from '#src/record/canonical.ts'
import { FIELD_LABELS } from '#src/record/field-labels.ts'
import { ApplicationRecord, fieldIds, fixedIds } from '#src/record/record.ts'
import { brokenSeals, commit, removePersonal, seal, sha256, unseal } from '#src/record/seal.ts'
import { recordText } from '#src/record/text.ts'
import { draft, english, record, saltOf, spanish } from './build.ts'

const anyJson = fc
  .jsonValue({ noUnicodeString: false, maxDepth: 4 })
  .map(
    (value) =>
      JSON.parse(
        JSON.stringify(value, (_, inner) => (typeof inner === 'number' ? Math.trunc(inner) % 1e6 : inner)),
      ) as Json,
  )

describe('canonicalJson()', () => {
  test('writes keys in one order and nothing that is undefined', () => {
    expect(canonicalJson({ b: 1, a: [true, null, 'x'], c: undefined })).toBe('{"a":[true,null,"x"],"b":1}')
  })

  test('is JSON that reads back as the same value', () => {
    fc.assert(
      fc.property(anyJson, (value) => {
        expect(JSON.parse(canonicalJson(value))).toEqual(value)
      }),
    )
  })

  test('does not depend on the order in which keys were set', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.integer()), (value) => {
        const turned = Object.fromEntries(Object.entries(value).reverse())
        expect(isSame(value, turned)).toBe(true)
      }),
    )
  })

  test('refuses a number that is not whole: amounts are decimal texts', () => {
    expect(() => canonicalJson({ amount: 0.1 })).toThrow(RangeError)
  })
})

describe('commitments', () => {
  test('sha256() gives the published digest of "abc" (FIPS 180-2, appendix B.1)', () => {
    expect(sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
  })

  test('hide the value: another salt gives another commitment to the same name', () => {
    const value = 'Demo Person Quillfern'
    expect(commit('applicator', { salt: saltOf('a'), value })).not.toBe(
      commit('applicator', { salt: saltOf('b'), value }),
    )
  })

  test('bind the place: the same name in another field is another commitment', () => {
    const kept = { salt: saltOf('a'), value: 'Demo Person Quillfern' }
    expect(commit('applicator', kept)).not.toBe(commit('supervisor', kept))
  })

  test('want a salt of 32 bytes', () => {
    expect(() => commit('applicator', { salt: 'abc', value: 'x' })).toThrow(RangeError)
  })
})

describe('sealing a record', () => {
  const whole = record({
    notes: spanish('vecina con perro'),
    unusual: { happened: true, words: english('hose burst by the gate of Mrs. Demo Fenn'), incidentId: 3 },
    supervisor: { name: 'Demo Lead Harrowmere', license: { number: 'DEMO-L9' } },
    helpers: [{ name: 'Demo Helper Marl' }],
  })
  const sealed = seal(whole as Json, saltOf)
  const text = recordText(sealed.open)

  test('leaves no name, address, license number or typed word in the text', () => {
    for (const private_ of [
      'Quillfern',
      'Ottiline',
      '12 Demo Lane',
      'DEMO-L',
      'vecina',
      'gate',
      'Harrowmere',
      'Marl',
      'strip by',
    ])
      expect(text, private_).not.toContain(private_)
  })

  test('leaves what an inspector needs: product, number, amount, area, day, wind', () => {
    for (const open of [
      'Invented 75 WDG',
      '9999999-1',
      '2 oz wt',
      '5000 ft2',
      '2025-06-30',
      '5 mph',
      '"SW"',
      'Anything unusual: (happened yes, incident id 3, words sealed',
    ])
      expect(text, open).toContain(open)
  })

  test('gives back the very record while everything is kept', () => {
    expect(unseal(sealed)).toEqual(whole)
    expect(brokenSeals(sealed)).toEqual([])
  })

  test('personal data that are taken out leave a record that is still one, and the same text', () => {
    const bare = removePersonal(sealed)
    expect(recordText(bare.open)).toBe(text)
    expect(brokenSeals(bare)).toEqual([])
    const read = ApplicationRecord.parse(unseal(bare))
    expect(read.customerName).toEqual({ removed: true })
    expect(read.writtenBy).toEqual({ removed: true })
    expect(read.unusual).toEqual({ happened: true, incidentId: 3, words: { removed: true } })
    expect(JSON.stringify(read)).not.toContain('Demo Person')
  })

  test('one person can be taken out while the rest stays', () => {
    const part = removePersonal(sealed, ['customerName', 'customerAddress'])
    expect(ApplicationRecord.parse(unseal(part))).toMatchObject({
      customerName: { removed: true },
      applicator: { name: 'Demo Person Quillfern' },
    })
  })

  test('"not recorded" of a personal field stays readable', () => {
    const open = seal(draft({ customerName: { notRecorded: true } }) as Json, saltOf).open
    expect(recordText(open)).toContain('Customer: not recorded')
  })

  test('a kept value that was changed, or put in, does not fit its commitment', () => {
    const applicator = { salt: saltOf('applicator'), value: { name: 'Somebody Else' } }
    expect(brokenSeals({ ...sealed, kept: { ...sealed.kept, applicator } })).toEqual(['applicator'])
    expect(brokenSeals({ ...sealed, kept: { ...sealed.kept, mood: applicator } })).toEqual(['mood'])
  })
})

describe('the canonical text', () => {
  test('is the same for ever', () => {
    const small = {
      number: 'R-1',
      date: '2025-06-30',
      treatedArea: { value: '600', unit: 'ft2' },
      windSpeed: { notRecorded: true },
      adjuvants: [],
    }
    expect(recordText(small)).toMatchInlineSnapshot(`
      "Swardhand application record, form 1
      Record number: "R-1"
      Adjuvants: none
      Date: "2025-06-30"
      Treated area: 600 ft2
      Wind speed: not recorded"
    `)
  })

  test('has a line for every field, and a name for each', () => {
    const names = [...fixedIds, ...fieldIds].map((field) => FIELD_LABELS[field])
    expect(names).not.toContain(undefined)
    expect(new Set(names).size).toBe(names.length)
    expect(recordText(record() as Json).split('\n')).toHaveLength(1 + Object.keys(record()).length)
  })

  test('typed words cannot pass for a line of the form', () => {
    const forged = recordText(record({ county: 'x"\nDate: "2020-01-01' }) as Json)
    expect(forged.split('\n')).toHaveLength(recordText(record() as Json).split('\n').length)
  })

  test('a field that no record has would be lost, so it is refused', () => {
    expect(() => recordText({ number: 'R-1', mood: 'good' })).toThrow(RangeError)
  })

  test('a part with a name that every object knows is written as it stands', () => {
    for (const name of ['constructor', 'toString', 'valueOf', 'hasOwnProperty'])
      expect(recordText({ county: { [name]: 'x' } })).toMatch(/"x"/)
  })

  test('two different values of a field never look the same', () => {
    fc.assert(
      fc.property(anyJson, anyJson, (a, b) => {
        const write = (value: Json) => {
          try {
            return recordText({ county: value })
          } catch {
            return null
          }
        }
        const [first, second] = [write(a), write(b)]
        if (first !== null && second !== null) expect(first === second).toBe(isSame(a, b))
      }),
      { numRuns: 400 },
    )
  })
})
