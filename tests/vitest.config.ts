import { defineConfig } from 'vitest/config'

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
  'tests/bench/**/*.test.ts',
  'tests/page/*.browser.test.ts',
]

const shared = {
  // Modules are loaded once a worker, not once a file: loading the arithmetic takes longer than most tests.
  isolate: false,
  testTimeout: 30_000,
  hookTimeout: 60_000,
  setupFiles: ['tests/loopback-only.ts'],
}

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    globalSetup: ['tests/helpers/postgres-url.ts', 'tests/helpers/chromium.ts'],
    projects: [
      {
        extends: true,
        test: { ...shared, name: 'together', include: ['tests/**/*.test.ts'], exclude: ALONE },
      },
      {
        extends: true,
        test: {
          ...shared,
          name: 'alone',
          include: ALONE,
          fileParallelism: false,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
})
