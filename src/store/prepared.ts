import type { CompiledQuery, Kysely, QueryResult } from 'kysely'
import { ask } from './lent.ts'
import type { Tables } from './tables.ts'

/** Where a value goes that is given each time. */
class Place {
  readonly at: number
  constructor(at: number) {
    this.at = at
  }
}

interface Written<Row> {
  compile(): CompiledQuery<Row>
}

/**
 * A statement that every request asks, put into words once for each database: building it anew takes three times as
 * long as asking SQLite. The values it is given go in as they stand, so they may be texts, numbers or null, and nothing
 * of the statement may depend on them.
 */
export function prepared<Values extends readonly (string | number | null)[], Row>(
  write: (db: Kysely<Tables>, ...values: Values) => Written<Row>,
): (db: Kysely<Tables>, ...values: Values) => Promise<QueryResult<Row>> {
  const known = new WeakMap<object, CompiledQuery<Row>>()
  return (db, ...values) => {
    const engine = db.getExecutor().adapter
    let words = known.get(engine)
    if (words === undefined) {
      const places = values.map((_, at) => new Place(at)) as readonly unknown[]
      words = write(db, ...(places as unknown as Values)).compile()
      known.set(engine, words)
    }
    const parameters = words.parameters.map((one) => (one instanceof Place ? values[one.at] : one))
    return ask<Row>(db, { ...words, parameters })
  }
}
