import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { addressOf, readSettings, SettingsError } from '#src/settings.ts'
import setup, { leftOut } from '#tests/helpers/postgres-url.ts'

const messageOf = (environment: Readonly<Record<string, string>>): string => {
  try {
    readSettings(environment)
    return ''
  } catch (error) {
    expect(error).toBeInstanceOf(SettingsError)
    return (error as Error).message
  }
}

describe('settings', () => {
  test('nothing needs to be set: then it is the practice room, with a file of its own', () => {
    expect(readSettings({})).toMatchObject({ discordToken: null, discordApi: null, database: null })
  })

  test('everything that is set is read', () => {
    expect(
      readSettings({
        DISCORD_TOKEN: ' a.token ',
        DISCORD_API: 'http://127.0.0.1:9000/api',
        DATABASE_URL: 'postgres://crew@127.0.0.1/sward',
        PORT: '8080',
        CREW_TIMEZONE: 'America/Denver',
        LOG_LEVEL: 'warn',
      }),
    ).toMatchObject({
      discordToken: 'a.token',
      discordApi: 'http://127.0.0.1:9000/api',
      database: { engine: 'postgres', url: 'postgres://crew@127.0.0.1/sward' },
      port: 8080,
      zone: 'America/Denver',
      logLevel: 'warn',
    })
  })

  test('an empty setting is one that is not set', () => {
    expect(readSettings({ DISCORD_TOKEN: '', PORT: '', CREW_TIMEZONE: '' })).toEqual(readSettings({}))
  })

  test.each([
    [{ DATABASE_URL: 'mysql://x' }, 'DATABASE_URL: must be sqlite:PATH or postgres://…'],
    [{ DATABASE_URL: 'sqlite:' }, 'DATABASE_URL: must be sqlite:PATH or postgres://…'],
    [{ CREW_TIMEZONE: 'Mars/Base' }, 'CREW_TIMEZONE: must be a time zone such as America/Chicago'],
    [{ PORT: '0' }, 'PORT: '],
    [{ HEALTH_PORT: '0' }, 'HEALTH_PORT: '],
    [{ PORT: '70000' }, 'PORT: '],
    [{ PORT: 'http' }, 'PORT: '],
    [{ DISCORD_API: 'not an address' }, 'DISCORD_API: '],
    [{ LOG_LEVEL: 'loud' }, 'LOG_LEVEL: '],
  ])('%j stops the program with a sentence that names it', (environment, sentence) => {
    const message = messageOf(environment as Readonly<Record<string, string>>)
    expect(message.startsWith('Cannot start with these settings:\n- ')).toBe(true)
    expect(message).toContain(sentence)
  })

  test('all that is wrong is told at once', () => {
    expect(messageOf({ PORT: 'x', CREW_TIMEZONE: 'x', DATABASE_URL: 'x' }).split('\n')).toHaveLength(4)
  })

  test('a token never stands in what is told', () => {
    expect(messageOf({ DISCORD_TOKEN: 'a.secret', PORT: 'x' })).not.toContain('a.secret')
  })
})

describe('the address of a store', () => {
  test.each([
    ['sqlite:crew.sqlite', { engine: 'sqlite', path: path.resolve('crew.sqlite') }],
    ['sqlite:/srv/crew.sqlite', { engine: 'sqlite', path: '/srv/crew.sqlite' }],
    ['sqlite:///srv/crew.sqlite', { engine: 'sqlite', path: '/srv/crew.sqlite' }],
    ['sqlite::memory:', { engine: 'sqlite', path: ':memory:' }],
    ['postgresql://h/d', { engine: 'postgres', url: 'postgresql://h/d' }],
  ])('%s', (url, address) => {
    expect(addressOf(url)).toEqual(address)
  })
})

describe('a test run without PostgreSQL', () => {
  test('says that it left it out, and how to take it in', () => {
    expect(leftOut({})).toMatch(/^PostgreSQL left out: set TEST_POSTGRES_URL/)
    expect(leftOut({ TEST_POSTGRES_URL: 'postgres://x' })).toBeNull()
    expect(typeof setup).toBe('function')
  })
})

test.each([
  [{}, null],
  [{ PORT: '8080' }, { port: 8080, setting: 'PORT' }],
  [{ HEALTH_PORT: '9090' }, { port: 9090, setting: 'HEALTH_PORT' }],
  [
    { PORT: '8080', HEALTH_PORT: '9090' },
    { port: 9090, setting: 'HEALTH_PORT' },
  ],
])('with %j the health page is at %j', (environment, health) => {
  expect(readSettings(environment).health).toEqual(health)
})

test.each([
  [{ SHARDS: '0-1' }, 'SHARDS and SHARD_COUNT go together'],
  [{ SHARD_COUNT: '2' }, 'SHARDS and SHARD_COUNT go together'],
  [{ SHARDS: '0-2', SHARD_COUNT: '2' }, 'SHARDS: 0-2 is none of the 2 shards'],
  [{ SHARDS: '1-0', SHARD_COUNT: '2' }, 'SHARDS: 1-0 is none of the 2 shards'],
  [{ SHARDS: 'all', SHARD_COUNT: '2' }, 'SHARDS: must be numbers such as 0-3 or 0,2,5'],
  // Some of the shards means that there are other processes, and a SQLite file serves one.
  [{ SHARDS: '0', SHARD_COUNT: '2' }, 'several processes need PostgreSQL in DATABASE_URL'],
  [
    { SHARDS: '0', SHARD_COUNT: '2', DATABASE_URL: 'sqlite:crew.sqlite' },
    'A SQLite file serves one process.',
  ],
])('shards %o are refused: %s', (given, sentence) => {
  expect(() => readSettings(given)).toThrow(sentence)
})

test.each([
  [
    { SHARDS: '0-1', SHARD_COUNT: '2' },
    { ids: [0, 1], count: 2 },
  ],
  [
    { SHARDS: '4,0-2,1', SHARD_COUNT: '8', DATABASE_URL: 'postgres://127.0.0.1/x' },
    { ids: [0, 1, 2, 4], count: 8 },
  ],
])('shards %o', (given, shards) => {
  expect(readSettings(given).shards).toEqual(shards)
})
