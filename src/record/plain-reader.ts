import type { z } from 'zod'

/** Stands for "not by this short way": the schema itself is asked. */
const DOUBT = Symbol('doubt')
type Read = (value: unknown) => unknown

/**
 * Reads plain data of a schema several times faster than the schema does, and never otherwise: what this does not know
 * for certain it leaves to the schema. Made once for each schema; it has no memory of values.
 *
 * Nearly all that is read back holds. For it the way is short: each check of the schema is asked, keys stand in the
 * schema's order, and nothing is noted on the way of what did not fit.
 * @returns the value as the schema gives it; undefined where the schema does not take it
 */
export function plainReader<T>(schema: z.ZodType<T>): (value: unknown) => T | undefined {
  let read: Read | null = null
  return (value) => {
    read ??= readerOf(schema)
    const quick = read(value)
    return quick === DOUBT ? schema.safeParse(value).data : (quick as T)
  }
}

type Schema = z.core.$ZodType
type Def = z.core.$ZodTypeDef & Readonly<Record<string, unknown>>

function readerOf(schema: Schema): Read {
  const def = schema._zod.def as Def
  const make = Object.hasOwn(KINDS, def.type) ? KINDS[def.type] : undefined
  return make?.(def, schema) ?? byTheSchema(schema)
}

/** How a kind of schema is read; null for one of its kind that is unlike those that are known here. */
const KINDS: Readonly<Record<string, (def: Def, schema: Schema) => Read | null>> = {
  object: (def) => (def.checks === undefined ? objectReader(def as unknown as z.core.$ZodObjectDef) : null),
  array: (def) => arrayReader(def as unknown as z.core.$ZodArrayDef),
  union: (def) => (def.checks === undefined ? unionReader(def as unknown as z.core.$ZodUnionDef) : null),
  enum: (_, schema) => oneOf(schema),
  literal: (_, schema) => oneOf(schema),
  boolean: (def) => checked(def, (value) => typeof value === 'boolean'),
  string: (def, schema) => (def.coerce === true ? null : checked(def, isText, ownCheck(schema))),
  number: (def, schema) => (def.coerce === true ? null : checked(def, Number.isFinite, ownCheck(schema))),
}

function byTheSchema(schema: Schema): Read {
  const { safeParse } = schema as z.ZodType
  return (value) => {
    const { success, data } = safeParse(value)
    return success ? data : DOUBT
  }
}

const isText = (value: unknown) => typeof value === 'string'

function oneOf({ _zod: { def, values } }: Schema): Read | null {
  if (def.checks !== undefined || values === undefined) return null
  return (value) => (values.has(value as string) ? value : DOUBT)
}

type Check = (payload: z.core.ParsePayload) => unknown

/** A format, such as a whole number, is its schema's own check. */
function ownCheck(schema: Schema): readonly Check[] {
  return 'check' in schema._zod ? [schema._zod.check as Check] : []
}

/** Checks that look at a value or trim it; the very ones of the schema, in its order. */
const KNOWN_CHECKS = new Set([
  'min_length',
  'max_length',
  'overwrite',
  'string_format',
  'custom',
  'greater_than',
  'less_than',
])

function checksOf(def: Def): readonly Check[] | null {
  const checks = def.checks ?? []
  return checks.every(({ _zod }) => KNOWN_CHECKS.has(_zod.def.check))
    ? checks.map(({ _zod }) => _zod.check as Check)
    : null
}

function checked(def: Def, isKind: (value: unknown) => boolean, own: readonly Check[] = []): Read | null {
  const further = checksOf(def)
  if (further === null) return null
  const checks = [...own, ...further]
  if (checks.length === 0) return (value) => (isKind(value) ? value : DOUBT)
  return (value) => (isKind(value) ? afterChecks(value, checks) : DOUBT)
}

/** What checks write on; taken while one value is looked at, since most of a record is a text with checks of its own. */
let spare: z.core.ParsePayload | null = null

function afterChecks(value: unknown, checks: readonly Check[]): unknown {
  const payload = spare ?? { value, issues: [] }
  spare = null
  payload.value = value
  for (const check of checks) {
    // A check that has to be waited for is no such short way.
    if (check(payload) !== undefined || payload.issues.length > 0) return DOUBT
  }
  const read = payload.value
  payload.value = undefined
  spare = payload
  return read
}

function arrayReader(def: z.core.$ZodArrayDef): Read | null {
  const checks = checksOf(def as unknown as Def)
  if (checks === null) return null
  const element = readerOf(def.element)
  return (value) => {
    if (!Array.isArray(value)) return DOUBT
    let changed: unknown[] | null = null
    for (let at = 0; at < value.length; at += 1) {
      const one = element(value[at])
      if (one === DOUBT) return DOUBT
      if (one === value[at]) continue
      changed ??= value.slice()
      changed[at] = one
    }
    const read = changed ?? value
    return checks.length === 0 ? read : afterChecks(read, checks)
  }
}

function unionReader({ options }: z.core.$ZodUnionDef): Read {
  const readers = options.map(readerOf)
  return (value) => {
    for (const read of readers) {
      const one = read(value)
      if (one !== DOUBT) return one
    }
    return DOUBT
  }
}

/** Only one that takes no other keys, and whose keys are all there or exactly optional. */
function objectReader({ shape, catchall }: z.core.$ZodObjectDef): Read | null {
  if (catchall?._zod.def.type !== 'never') return null
  const schemas = Object.entries(shape)
  if (schemas.some(([, schema]) => schema._zod.optin !== undefined && innerOf(schema) === null)) return null
  const parts = schemas.map(([key, schema], at) => {
    const inner = innerOf(schema)
    return { key, at, mayLack: inner !== null, read: readerOf(inner ?? schema) }
  })
  const layoutOf = layoutsOf(parts)
  return (value) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return DOUBT
    const values = value as Readonly<Record<string, unknown>>
    const layout = layoutOf(values)
    if (layout === null) return DOUBT
    const { keys, reads, mold } = layout
    let whole: Record<string, unknown> | null = mold === null ? null : { ...mold }
    for (let at = 0; at < keys.length; at += 1) {
      const key = keys[at] as string
      const inner = values[key]
      if (inner === undefined) return DOUBT
      const one = (reads[at] as Read)(inner)
      if (one === DOUBT) return DOUBT
      if (whole !== null) whole[key] = one
      else if (one !== inner) whole = { ...values, [key]: one }
    }
    return whole ?? values
  }
}

interface Part {
  readonly key: string
  /** Its place in the schema's order. */
  readonly at: number
  readonly mayLack: boolean
  readonly read: Read
}

/** How objects are read that have these very keys in this order. */
interface Layout {
  readonly keys: readonly string[]
  readonly reads: readonly Read[]
  /** The same keys in the schema's order, with nothing in them; null where they stand in it already. */
  readonly mold: Readonly<Record<string, null>> | null
}

/** Records of one crew hold the same few sets of keys. */
const MOST_LAYOUTS = 8

/** Finds how objects of some keys are read; null for keys that are not the schema's. The newest few sets are known. */
function layoutsOf(parts: readonly Part[]): (values: object) => Layout | null {
  const byKey = new Map(parts.map((part) => [part.key, part]))
  const needed = parts.filter(({ mayLack }) => !mayLack).length
  const known: Layout[] = []

  function make(keys: readonly string[]): Layout | null {
    const found = keys.flatMap((key) => byKey.get(key) ?? [])
    const had = found.filter(({ mayLack }) => !mayLack).length
    if (found.length < keys.length || had < needed) return null
    const inOrder = [...found].sort((one, other) => one.at - other.at)
    return {
      keys,
      reads: found.map(({ read }) => read),
      mold: found.every((part, at) => part === inOrder[at])
        ? null
        : Object.fromEntries(inOrder.map(({ key }) => [key, null])),
    }
  }

  return (values) => {
    const [newest] = known
    if (newest !== undefined && hasKeys(values, newest.keys)) return newest
    const at = known.findIndex(({ keys }) => hasKeys(values, keys))
    const layout = at < 0 ? make(Object.keys(values)) : (known.splice(at, 1)[0] ?? null)
    if (layout === null) return null
    if (known.length === MOST_LAYOUTS) known.pop()
    known.unshift(layout)
    return layout
  }
}

/** These keys, in this order, and no others; without a list of them made for it. */
function hasKeys(values: object, keys: readonly string[]): boolean {
  let at = 0
  for (const key in values) {
    if (keys[at] !== key) return false
    at += 1
  }
  return at === keys.length
}

/** What a key holds that may be left out, but never holds nothing; null for every other schema. */
function innerOf({ _zod: { def, traits } }: Schema): Schema | null {
  const isPlain = traits.has('$ZodExactOptional') && def.checks === undefined
  return isPlain ? (def as unknown as z.core.$ZodExactOptionalDef).innerType : null
}
