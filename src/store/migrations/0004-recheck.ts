import type { ColumnWords } from '../dialect.ts'

/** Looks after an application or at a held plant, plots to compare, what was seen on each, and attempts to tell people. */
export function recheck({ id, integer, strict }: ColumnWords): readonly string[] {
  const crew = `crew_id ${integer} not null references crews (id)`
  const created = `created_at_ms ${integer} not null`
  const parent = 'unique (crew_id, id)'
  const of = (column: string, table: string, key = 'id') =>
    `foreign key (crew_id, ${column}) references ${table} (crew_id, ${key})`
  return [
    `create table visits (
      id ${id}, ${crew}, record_number ${integer}, walk_id ${integer}, site_id ${integer}, area_id ${integer},
      owner_id ${integer} not null, plan text not null, untreated text not null, open_on text,
      changed_at_ms ${integer} not null, ${created},
      unique (crew_id, record_number), unique (crew_id, walk_id), ${parent},
      ${of('record_number', 'records', 'number')}, ${of('walk_id', 'walks')}, ${of('site_id', 'sites')},
      ${of('area_id', 'areas')}, ${of('owner_id', 'people')}
    ) ${strict}`,
    'create index visits_by_day on visits (open_on, crew_id)',
    `create table plots (
      id ${id}, ${crew}, record_number ${integer} not null, area_id ${integer}, kind text not null,
      flag text not null, body text not null, person_id ${integer} not null, ${created},
      unique (crew_id, record_number, flag), ${parent},
      ${of('record_number', 'records', 'number')}, ${of('area_id', 'areas')}, ${of('person_id', 'people')}
    ) ${strict}`,
    `create table ratings (
      id ${id}, ${crew}, visit_id ${integer} not null, look_id text, person_id ${integer} not null,
      rated_on text not null, body text not null, ${created}, ${parent},
      ${of('visit_id', 'visits')}, ${of('person_id', 'people')}
    ) ${strict}`,
    'create index ratings_by_visit on ratings (crew_id, visit_id, id)',
    `alter table deliveries add column tried_at_ms ${integer}`,
  ]
}
