import type { ColumnWords } from '../dialect.ts'

/** The first schema: crews and people, answered questions, the label book, sites, sprayers, what was applied. */
export function first({ id, integer, strict }: ColumnWords): readonly string[] {
  const crew = `crew_id ${integer} not null references crews (id)`
  const created = `created_at_ms ${integer} not null`
  return [
    `create table crews (
      id ${id}, key text not null unique, name text not null, language text not null, zone text not null,
      state text, settings text not null, book_revision ${integer} not null default 0,
      answers ${integer} not null default 0, demo ${integer} not null, ${created}
    ) ${strict}`,
    `create table people (
      id ${id}, ${crew}, key text not null, name text not null, language text, role text not null,
      settings text not null, removed_at_ms ${integer}, ${created}, unique (crew_id, key)
    ) ${strict}`,
    `create table turns (
      id ${id}, ${crew}, request_id text not null, number ${integer} not null,
      person_id ${integer} not null references people (id), command text not null, asked text not null,
      outcome text not null, reply text not null, state text, closed_by text, ${created}, day text not null,
      unique (crew_id, request_id), unique (crew_id, number)
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
      retired_at_ms ${integer}, ${created}
    ) ${strict}`,
    'create index sites_by_crew on sites (crew_id, name)',
    `create table areas (
      id ${id}, ${crew}, site_id ${integer} not null references sites (id), name text not null,
      square_feet text not null, details text not null, retired_at_ms ${integer}, ${created}
    ) ${strict}`,
    'create index areas_by_site on areas (crew_id, site_id)',
    `create table sprayers (
      id ${id}, ${crew}, name text not null, details text not null, retired_at_ms ${integer}, ${created}
    ) ${strict}`,
    'create index sprayers_by_crew on sprayers (crew_id, name)',
    `create table calibrations (
      id ${id}, ${crew}, sprayer_id ${integer} not null references sprayers (id),
      person_id ${integer} not null references people (id), setup text not null, output text not null,
      details text not null, measured_on text not null, voided_at_ms ${integer}, ${created}
    ) ${strict}`,
    'create index calibrations_by_sprayer on calibrations (crew_id, sprayer_id, person_id, id)',
    `create table sprayer_events (
      id ${id}, ${crew}, sprayer_id ${integer} not null references sprayers (id),
      person_id ${integer} not null references people (id), turn_id ${integer} references turns (id),
      kind text not null, details text not null, at_ms ${integer} not null
    ) ${strict}`,
    'create index sprayer_events_by_sprayer on sprayer_events (crew_id, sprayer_id, id)',
    `create table label_entries (
      id ${id}, ${crew}, name text not null, live_revision_id ${integer}, confirmed_on text,
      retired_at_ms ${integer}, ${created}
    ) ${strict}`,
    'create index label_entries_by_crew on label_entries (crew_id, name)',
    `create table label_revisions (
      id ${id}, ${crew}, entry_id ${integer} not null references label_entries (id),
      revision ${integer} not null, body text not null, status text not null,
      entered_by ${integer} not null references people (id), confirmed_by ${integer} references people (id),
      ${created}, unique (entry_id, revision)
    ) ${strict}`,
    `create table treatments (
      id ${id}, ${crew}, area_id ${integer} not null references areas (id),
      entry_id ${integer} not null references label_entries (id),
      revision_id ${integer} not null references label_revisions (id),
      person_id ${integer} not null references people (id), details text not null, treated_on text not null,
      voided_at_ms ${integer}, ${created}
    ) ${strict}`,
    'create index treatments_by_area on treatments (crew_id, area_id, treated_on)',
    `create table refused_rates (
      id ${id}, ${crew}, person_id ${integer} not null references people (id), product text not null,
      rate text not null, at_ms ${integer} not null
    ) ${strict}`,
    'create index refused_rates_by_rate on refused_rates (crew_id, rate)',
    `create table incidents (
      id ${id}, ${crew}, person_id ${integer} not null references people (id),
      turn_id ${integer} not null references turns (id), words text not null, closed_at_ms ${integer},
      closed_by ${integer} references people (id), ${created}
    ) ${strict}`,
    'create index incidents_open on incidents (crew_id, closed_at_ms, id)',
    `create table deliveries (
      id ${id}, ${crew}, person_id ${integer} references people (id), command text not null, reply text not null,
      nonce text not null unique, due_at_ms ${integer} not null, claimed_until_ms ${integer},
      sent_at_ms ${integer}, ${created}
    ) ${strict}`,
    'create index deliveries_due on deliveries (sent_at_ms, due_at_ms)',
  ]
}
