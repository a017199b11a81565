/** Ways to rows that a crew's work had no index for: whose records, of which record the products, looks on which area. */
export function indexes(): readonly string[] {
  return [
    'create index records_by_person on records (crew_id, person_id, number)',
    'create index record_products_by_record on record_products (crew_id, record_id)',
    'create index visits_by_area on visits (crew_id, area_id, id)',
  ]
}
