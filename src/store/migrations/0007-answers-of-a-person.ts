/**
 * Whose answers, of which command, and which were given: the newest of a person's day are found without a look at what
 * everybody else of the crew was answered on it.
 */
export function answersOfAPerson(): readonly string[] {
  return [
    'drop index turns_by_person',
    'create index turns_by_person on turns (crew_id, person_id, number, day, command, outcome)',
  ]
}
