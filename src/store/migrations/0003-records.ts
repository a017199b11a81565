import type { ColumnWords } from '../dialect.ts'

/** Mixes that logs draw from, logs on their way, and the chain of finished records with the values beside it. */
export function records({ id, integer, strict }: ColumnWords): readonly string[] {
  const crew = `crew_id ${integer} not null references crews (id)`
  const created = `created_at_ms ${integer} not null`
  const parent = 'unique (crew_id, id)'
  const of = (column: string, table: string) =>
    `foreign key (crew_id, ${column}) references ${table} (crew_id, id)`
  return [
    `create table mixes (
      id ${id}, ${crew}, number ${integer} not null, person_id ${integer} not null,
      body text not null, closed_as text, closed_at_ms ${integer}, ${created},
      unique (crew_id, number), ${parent}, ${of('person_id', 'people')}
    ) ${strict}`,
    'create index mixes_by_person on mixes (crew_id, person_id, id)',
    `create table drafts (
      id ${id}, ${crew}, person_id ${integer} not null, mix_id ${integer}, status text not null,
      body text not null, changed_at_ms ${integer} not null, ${created}, ${parent},
      ${of('person_id', 'people')}, ${of('mix_id', 'mixes')}
    ) ${strict}`,
    'create index drafts_by_person on drafts (crew_id, person_id, status, id)',
    `create table chain_links (
      id ${id}, ${crew}, seq ${integer} not null, kind text not null, record_number ${integer} not null,
      body text not null, previous text not null, hash text not null, ${created},
      unique (crew_id, seq), ${parent}
    ) ${strict}`,
    'create index chain_links_by_record on chain_links (crew_id, record_number, seq)',
    `create table personal_values (
      id ${id}, ${crew}, link_id ${integer} not null, path text not null, salt text not null,
      value text not null, ${created}, unique (crew_id, link_id, path), ${of('link_id', 'chain_links')}
    ) ${strict}`,
    `create table records (
      id ${id}, ${crew}, number ${integer} not null, link_id ${integer} not null, person_id ${integer} not null,
      site_id ${integer}, area_id ${integer}, mix_id ${integer}, drawn text, applied_on text,
      complete ${integer} not null, within_label text not null, late ${integer} not null,
      treatments text not null, voided_at_ms ${integer}, ${created},
      unique (crew_id, number), ${parent}, ${of('link_id', 'chain_links')}, ${of('person_id', 'people')},
      ${of('site_id', 'sites')}, ${of('area_id', 'areas')}, ${of('mix_id', 'mixes')}
    ) ${strict}`,
    'create index records_by_site on records (crew_id, site_id, number)',
    'create index records_by_day on records (crew_id, applied_on, number)',
    'create index records_by_mix on records (crew_id, mix_id)',
    `create table record_products (
      id ${id}, ${crew}, record_id ${integer} not null, name text not null, ${of('record_id', 'records')}
    ) ${strict}`,
    'create index record_products_by_name on record_products (crew_id, name, record_id)',
  ]
}
