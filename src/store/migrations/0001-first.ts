import type { ColumnWords } from '../dialect.ts'

/**
 * The first schema: crews and people, answered questions, the label book, sites, sprayers, what was applied.
 * A row names its parent together with the crew, so that no row of one crew can ever hang on another crew's.
 */
export function first({ id, integer, strict }: ColumnWords): readonly string[] {
  const crew = `crew_id ${integer} not null references crews (id)`
  const created = `created_at_ms ${integer} not null`
  const parent = 'unique (crew_id, id)'
  const of = (column: string, table: string) =>
    `foreign key (crew_id, ${column}) references ${table} (crew_id, id)`
  return [
    `create table crews (
      id ${id}, key text not null unique, name text not null, language text not null, zone text not null,
      state text, settings text not null, book_revision ${integer} not null default 0,
      answers ${integer} not null default 0, demo ${integer} not null, ${created}
    ) ${strict}`,
    `create table people (
      id ${id}, ${crew}, key text not null, name text not null, language text, role text not null,
      leads_by_messenger ${integer} not null, last_channel_key text,
      settings text not null, removed_at_ms ${integer}, ${created}, unique (crew_id, key), ${parent}
    ) ${strict}`,
    `create table turns (
      id ${id}, ${crew}, request_id text not null, number ${integer} not null,
      person_id ${integer} not null, command text not null, asked text not null,
      outcome text not null, reply text not null, state text, closed_by text, ${created}, day text not null,
      unique (crew_id, request_id), unique (crew_id, number), ${parent}, ${of('person_id', 'people')}
    ) ${strict}`,
    'create index turns_by_person on turns (crew_id, person_id, number)',
    'create index turns_by_day on turns (crew_id, day, number)',
    'create index turns_by_command on turns (crew_id, command, number)',
    `create table files (
      id ${id}, ${crew}, blob text not null, name text not null, type text not null, bytes ${integer} not null,
      about text not null, about_id ${integer} not null, ${created}
    ) ${strict}`,
    'create index files_by_about on files (crew_id, about, about_id)',
    `create table sites (
      id ${id}, ${crew}, name text not null, address text not null, details text not null,
      retired_at_ms ${integer}, ${created}, ${parent}
    ) ${strict}`,
    'create index sites_by_crew on sites (crew_id, name)',
    `create table areas (
      id ${id}, ${crew}, site_id ${integer} not null, name text not null,
      square_feet text not null, details text not null, retired_at_ms ${integer}, ${created},
      ${parent}, ${of('site_id', 'sites')}
    ) ${strict}`,
    'create index areas_by_site on areas (crew_id, site_id)',
    `create table sprayers (
      id ${id}, ${crew}, name text not null, details text not null, retired_at_ms ${integer}, ${created},
      ${parent}
    ) ${strict}`,
    'create index sprayers_by_crew on sprayers (crew_id, name)',
    `create table calibrations (
      id ${id}, ${crew}, sprayer_id ${integer} not null, person_id ${integer} not null,
      setup text not null, output text not null,
      details text not null, measured_on text not null, voided_at_ms ${integer}, ${created},
      ${of('sprayer_id', 'sprayers')}, ${of('person_id', 'people')}
    ) ${strict}`,
    'create index calibrations_by_sprayer on calibrations (crew_id, sprayer_id, person_id, id)',
    `create table sprayer_events (
      id ${id}, ${crew}, sprayer_id ${integer} not null, person_id ${integer} not null, turn_id ${integer},
      kind text not null, details text not null, at_ms ${integer} not null,
      ${of('sprayer_id', 'sprayers')}, ${of('person_id', 'people')}, ${of('turn_id', 'turns')}
    ) ${strict}`,
    'create index sprayer_events_by_sprayer on sprayer_events (crew_id, sprayer_id, id)',
    `create table label_entries (
      id ${id}, ${crew}, name text not null, live_revision_id ${integer}, confirmed_on text,
      retired_at_ms ${integer}, ${created}, ${parent}
    ) ${strict}`,
    'create index label_entries_by_crew on label_entries (crew_id, name)',
    `create table label_revisions (
      id ${id}, ${crew}, entry_id ${integer} not null,
      revision ${integer} not null, body text not null, status text not null,
      entered_by ${integer} not null, confirmed_by ${integer},
      ${created}, unique (crew_id, entry_id, revision), unique (crew_id, entry_id, id), ${parent},
      ${of('entry_id', 'label_entries')}, ${of('entered_by', 'people')}, ${of('confirmed_by', 'people')}
    ) ${strict}`,
    `create table treatments (
      id ${id}, ${crew}, area_id ${integer} not null, entry_id ${integer} not null,
      revision_id ${integer} not null, person_id ${integer} not null,
      details text not null, treated_on text not null, voided_at_ms ${integer}, ${created},
      foreign key (crew_id, entry_id, revision_id) references label_revisions (crew_id, entry_id, id),
      ${of('area_id', 'areas')}, ${of('person_id', 'people')}
    ) ${strict}`,
    'create index treatments_by_area on treatments (crew_id, area_id, treated_on)',
    `create table refused_rates (
      id ${id}, ${crew}, person_id ${integer} not null, product text not null,
      rate text not null, at_ms ${integer} not null, ${of('person_id', 'people')}
    ) ${strict}`,
    'create index refused_rates_by_rate on refused_rates (crew_id, rate)',
    `create table hold_lifts (
      id ${id}, ${crew}, entry_id ${integer} not null, area_id ${integer} not null, day text not null,
      person_id ${integer} not null, reason text not null, ${created},
      ${of('entry_id', 'label_entries')}, ${of('area_id', 'areas')}, ${of('person_id', 'people')}
    ) ${strict}`,
    'create index hold_lifts_by_day on hold_lifts (crew_id, entry_id, area_id, day)',
    `create table incidents (
      id ${id}, ${crew}, person_id ${integer} not null, turn_id ${integer} not null, words text not null,
      closed_at_ms ${integer}, closed_by ${integer}, ${created},
      ${of('person_id', 'people')}, ${of('turn_id', 'turns')}, ${of('closed_by', 'people')}
    ) ${strict}`,
    'create index incidents_open on incidents (crew_id, closed_at_ms, id)',
    `create table deliveries (
      id ${id}, ${crew}, person_id ${integer}, command text not null, reply text not null,
      nonce text not null, due_at_ms ${integer} not null, claimed_until_ms ${integer},
      sent_at_ms ${integer}, ${created}, unique (crew_id, nonce), ${of('person_id', 'people')}
    ) ${strict}`,
    'create index deliveries_due on deliveries (sent_at_ms, due_at_ms)',
  ]
}
