/** Address of a PostgreSQL server on which tests may make databases, from TEST_POSTGRES_URL; null without one. */
export function postgresUrl(environment: Readonly<Record<string, string | undefined>> = process.env) {
  return environment.TEST_POSTGRES_URL || null
}

/** What a run without PostgreSQL has to say for itself; null when there is nothing to say. */
export function leftOut(environment: Readonly<Record<string, string | undefined>>): string | null {
  if (postgresUrl(environment) !== null) return null
  return 'PostgreSQL left out: set TEST_POSTGRES_URL to a superuser address, such as postgres://postgres@127.0.0.1:5432/postgres, to test the store on it too'
}

/** Before the run: says once that PostgreSQL is left out, or stops where it may not be. */
export default function setup(): void {
  const missing = leftOut(process.env)
  if (missing === null) return
  if (process.env.REQUIRE_POSTGRES === '1') throw new Error(missing)
  process.stdout.write(`\n${missing}\n\n`)
}
