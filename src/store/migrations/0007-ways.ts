/**
 * Ways to the few rows that are wanted among many: answers of one person's day, without those of everybody else of the
 * crew; what came in, was counted or marked, without all that records used; the records that lack something.
 */
export function ways(): readonly string[] {
  return [
    'drop index turns_by_person',
    'create index turns_by_person on turns (crew_id, person_id, number, day, command, outcome)',
    "create index stock_entered on stock_movements (crew_id, product) where kind <> 'used'",
    'create index records_lacking on records (crew_id, number) where complete = 0',
  ]
}
