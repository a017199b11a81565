import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { defineConfig } from 'vitest/config'

const root = new URL('..', import.meta.url).pathname

/** Tests that start processes of their own, or hold somebody to seconds: they run one after another, at the end. */
const ALONE = [
  'tests/messengers/discord/process.test.ts',
  'tests/store/two-processes.test.ts',
  'tests/messengers/room/terminal.test.ts',
  'tests/commands/site-add.test.ts',
  'tests/commands/json-lines.test.ts',
  'tests/discord-loopback/**/*.test.ts',
  'tests/e2e-discord/**/*.test.ts',
  'tests/e2e-key/**/*.test.ts',
  'tests/live/**/*.test.ts',
  'tests/watchdog/**/*.test.ts',
  'tests/ordeal/**/*.test.ts',
  'tests/shards/**/*.test.ts',
  'tests/bench/**/*.test.ts',
  'tests/page/*.browser.test.ts',
  'tests/page/tty.test.ts',
]

/** What people meet, from their first word to the paper: once more with every store of a test on PostgreSQL. */
const PEOPLE = [
  'book',
  'commands',
  'e2e-discord',
  'e2e-key',
  'messengers',
  'notices',
  'season',
  'stock',
  'summary',
  'visits',
]

/** Left out then: whoever asks for each engine has had this one, and this one looks at SQLite's own journal. */
function leftOut(): string[] {
  return PEOPLE.flatMap((folder) =>
    readdirSync(path.join(root, 'tests', folder), { recursive: true, encoding: 'utf8' })
      .filter((file) => file.endsWith('.test.ts'))
      .map((file) => path.join('tests', folder, file))
      .filter((file) => readFileSync(path.join(root, file), 'utf8').includes('eachEngine(')),
  ).concat('tests/e2e-discord/on-disk.test.ts')
}

const isOnPostgres = process.env.TEST_DATABASE === 'postgres'
const include = isOnPostgres ? PEOPLE.map((folder) => `tests/${folder}/**/*.test.ts`) : ['tests/**/*.test.ts']
const isOfPeople = (file: string) => PEOPLE.some((folder) => file.startsWith(`tests/${folder}/`))
const exclude = isOnPostgres ? leftOut() : []

const shared = {
  // Modules are loaded once a worker, not once a file: loading the arithmetic takes longer than most tests.
  isolate: false,
  testTimeout: 30_000,
  hookTimeout: 60_000,
  setupFiles: ['tests/loopback-only.ts', 'tests/same-draws.ts'],
}

export default defineConfig({
  root,
  test: {
    globalSetup: [
      'tests/helpers/postgres-url.ts',
      'tests/helpers/fresh-address.ts',
      'tests/helpers/chromium.ts',
    ],
    projects: [
      {
        extends: true,
        test: { ...shared, name: 'together', include, exclude: [...ALONE, ...exclude] },
      },
      {
        extends: true,
        test: {
          ...shared,
          name: 'alone',
          include: ALONE.filter((one) => !isOnPostgres || isOfPeople(one)),
          exclude,
          fileParallelism: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
})
