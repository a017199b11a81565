import { defineConfig } from 'vitest/config'

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    // Modules are loaded once a worker, not once a file: loading the arithmetic takes longer than most tests.
    isolate: false,
    testTimeout: 30_000,
    hookTimeout: 60_000,
    globalSetup: ['tests/helpers/postgres-url.ts'],
    setupFiles: ['tests/loopback-only.ts'],
  },
})
