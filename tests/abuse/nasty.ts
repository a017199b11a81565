import fc from 'fast-check'
import { z } from 'zod'
import type { FieldValue } from '#src/desk/command.ts'

/** What people who mean no good, or whose thumbs slip, put into a free field. */
export const NASTY = [
  '',
  ' ',
  '@everyone',
  '<@123456789012345678>',
  '**b** __u__ ||s|| `c`',
  '[text](https://demo.example)',
  '# heading\n> quote\n-# small',
  '\u202eltr\u202c \u200b\u2060zero\ufeff',
  'e\u0301\u0327\u0330'.repeat(40),
  '草坪 ñandú 👩‍🌾 🇺🇸',
  '\ud800 half',
  '\0 nul',
  "'; drop table turns; --",
  '" or 1=1 --',
  "%' like '_",
  '=1+1',
  '@SUM(A1)',
  '+1|cmd',
  '-2+3',
  '\t=tab',
  '../../etc/passwd',
  '..\\..\\windows',
  '/dev/null',
  '{{7*7}} {number}',
  '<script>alert(1)</script>',
  '__proto__',
  'constructor',
  'NaN',
  'Infinity',
  '1e400',
  '-0',
  '0',
  '-1 gal',
  '0 gal',
  '1/0 gal',
  '9'.repeat(400),
  '1,5,5 gal',
  '99999999999 acre',
  '0.0000000000001 oz',
  '2026-02-30',
  '2026-13-01',
  '25:99',
  'null',
  'undefined',
  'true',
  's1.1.1',
  's1.zzzzzz.f',
  'x'.repeat(4000),
  '1'.repeat(20),
] as const

/** Things that can be read, so that a command gets further than its first line. */
const SENSIBLE = [
  '2 gal',
  '1 gal/1000 ft2',
  '3 pt/acre',
  '0.113 oz wt/1000 ft2',
  '6000 ft2',
  '20 in',
  '4 mph',
  '34 s',
  '80 F',
  '55 %',
  '2026-07-01',
  'today',
  '9:30',
  'NC',
  'tall fescue',
  'bermuda',
  'crabgrass',
  'R-1',
  '1',
  '5',
] as const

const typed = (names: readonly string[]) =>
  fc.oneof(
    fc.constantFrom(...NASTY),
    { arbitrary: fc.constantFrom(...SENSIBLE), weight: 2 },
    { arbitrary: fc.constantFrom(...names), weight: 3 },
    fc.string({ unit: 'binary', maxLength: 30 }),
  )

/** A value for one option: mostly of its kind, sometimes of any other. */
function valueFor(schema: z.core.$ZodType, names: readonly string[]): fc.Arbitrary<unknown> {
  if (schema instanceof z.ZodOptional) return valueFor(schema.unwrap(), names)
  if (schema instanceof z.ZodEnum)
    return fc.oneof({ arbitrary: fc.constantFrom(...schema.options), weight: 5 }, typed(names))
  if (schema instanceof z.ZodBoolean) return fc.oneof(fc.boolean(), fc.constant('yes'))
  if (schema instanceof z.ZodNumber)
    return fc.oneof(fc.integer({ min: -5, max: 400 }), fc.double(), fc.constant('many'))
  return typed(names)
}

/** Options for a command as somebody may send them, by its schema; now and then one that it does not have. */
export function optionsFor(
  options: z.ZodObject,
  names: readonly string[],
): fc.Arbitrary<Record<string, string | number | boolean>> {
  const shape = Object.fromEntries(
    Object.entries(options.shape).map(([name, schema]) => [name, valueFor(schema as z.core.$ZodType, names)]),
  )
  return fc
    .tuple(
      fc.record(shape, { requiredKeys: [] }),
      fc.option(fc.record({ unheard_of: fc.constant('x') }), { freq: 20, nil: {} }),
    )
    .map(([known, more]) => ({ ...known, ...more }) as Record<string, string | number | boolean>)
}

/** What somebody does with the reply that is before them. */
export type Move =
  | { readonly kind: 'press'; readonly choice: number }
  | { readonly kind: 'form' }
  | { readonly kind: 'submit'; readonly words: readonly string[] }

export const moves = (names: readonly string[]): fc.Arbitrary<Move[]> =>
  fc.array(
    fc.oneof(
      { arbitrary: fc.record({ kind: fc.constant('press' as const), choice: fc.nat(24) }), weight: 4 },
      fc.constant({ kind: 'form' as const }),
      {
        arbitrary: fc.record({
          kind: fc.constant('submit' as const),
          words: fc.array(typed(names), { minLength: 5, maxLength: 5 }),
        }),
        weight: 3,
      },
    ),
    { minLength: 1, maxLength: 4 },
  )

export type Filled = Readonly<Record<string, FieldValue>>
