import type { ColumnWords } from '../dialect.ts'

/** What came in, what was counted and what records used of each product: nothing in it is ever changed, only voided. */
export function stock({ id, integer, strict }: ColumnWords): readonly string[] {
  const of = (column: string, table: string) =>
    `foreign key (crew_id, ${column}) references ${table} (crew_id, id)`
  return [
    `create table stock_movements (
      id ${id}, crew_id ${integer} not null references crews (id), person_id ${integer} not null,
      product text not null, kind text not null, amount text not null, at_ms ${integer} not null,
      lot text, record_number ${integer}, version ${integer}, place ${integer},
      voided_at_ms ${integer}, created_at_ms ${integer} not null,
      unique (crew_id, record_number, version, place), unique (crew_id, id), ${of('person_id', 'people')}
    ) ${strict}`,
    'create index stock_movements_by_product on stock_movements (crew_id, product, at_ms, id)',
  ]
}
