import {
  CamelCasePlugin,
  type LimitNode,
  type PluginTransformQueryArgs,
  PostgresQueryCompiler,
  SqliteQueryCompiler,
  ValueNode,
} from 'kysely'
import { remember } from '#src/memory/remember.ts'

/** Far more than the tables have; what is said beside them does not fill the memory. */
const MOST = 5000

/** Names of the tables as the code writes them, and back. Each is worked out once: there are some hundred. */
class Names extends CamelCasePlugin {
  readonly inStore = remember((name) => this.snakeCase(name), MOST)
  readonly inCode = remember((name) => this.camelCase(name), MOST)
}
const names = new Names()

/**
 * Gives back rows under the names of the code. The other direction is done where a statement is put into words: kysely's
 * own plugin makes every statement a second time, which took as long as all the rest of asking the store.
 */
export class NamesOfCode extends CamelCasePlugin {
  override transformQuery({ node }: PluginTransformQueryArgs) {
    return node
  }

  protected override mapRow(row: Record<string, unknown>): Record<string, unknown> {
    return rowInCode(row)
  }
}

/** A row under the names of the code. Rows hold texts and numbers only. */
export function rowInCode(row: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const mapped: Record<string, unknown> = {}
  for (const name in row) mapped[names.inCode(name)] = row[name]
  return mapped
}

export class SqliteWriter extends SqliteQueryCompiler {
  readonly #quoted = remember((name) => super.sanitizeIdentifier(names.inStore(name)), MOST)
  protected override sanitizeIdentifier(name: string): string {
    return this.#quoted(name)
  }

  /** SQLite plans by the number of rows wanted: given as a parameter, it prepares the statement anew each time. */
  protected override visitLimit(node: LimitNode): void {
    const { limit } = node
    if (ValueNode.is(limit) && typeof limit.value === 'number') this.append(`limit ${limit.value}`)
    else super.visitLimit(node)
  }
}

export class PostgresWriter extends PostgresQueryCompiler {
  readonly #quoted = remember((name) => super.sanitizeIdentifier(names.inStore(name)), MOST)
  protected override sanitizeIdentifier(name: string): string {
    return this.#quoted(name)
  }
}
