import type { ColumnWords } from '../dialect.ts'

/** Walks through the guided key, and plants that were flagged for a lead to look at. */
export function walks({ id, integer, strict }: ColumnWords): readonly string[] {
  const crew = `crew_id ${integer} not null references crews (id)`
  const created = `created_at_ms ${integer} not null`
  const parent = 'unique (crew_id, id)'
  const of = (column: string, table: string) =>
    `foreign key (crew_id, ${column}) references ${table} (crew_id, id)`
  return [
    `create table walks (
      id ${id}, ${crew}, number ${integer} not null, person_id ${integer} not null,
      site_id ${integer}, area_id ${integer}, status text not null, body text not null,
      changed_at_ms ${integer} not null, ${created}, unique (crew_id, number), ${parent},
      ${of('person_id', 'people')}, ${of('site_id', 'sites')}, ${of('area_id', 'areas')}
    ) ${strict}`,
    'create index walks_by_status on walks (crew_id, status, changed_at_ms)',
    `create table plant_flags (
      id ${id}, ${crew}, walk_id ${integer} not null, turn_id ${integer} not null, person_id ${integer} not null,
      status text not null, note text not null, name text, taxon text, named_by ${integer},
      named_at_ms ${integer}, ${created}, unique (crew_id, walk_id),
      ${of('walk_id', 'walks')}, ${of('turn_id', 'turns')}, ${of('person_id', 'people')},
      ${of('named_by', 'people')}
    ) ${strict}`,
  ]
}
