import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { expect, onTestFinished, test, vi } from 'vitest'
import { examine, runDoctor } from '#src/doctor.ts'
import { openDatabase } from '#src/store/open.ts'
import { type StandInSettings, startDiscord } from './discord-loopback/index.ts'

/** Surroundings in which all is well, and the stand-in that they point to. */
async function surroundings(world: StandInSettings = {}) {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-doctor-'))
  const platform = await startDiscord(world)
  onTestFinished(async () => {
    await platform.stop()
    rmSync(folder, { recursive: true, force: true })
  })
  const environment = {
    DISCORD_TOKEN: platform.token,
    DISCORD_API: platform.api,
    DATABASE_URL: `sqlite:${path.join(folder, 'crew.sqlite')}`,
  }
  return { platform, folder, environment }
}

async function found(environment: Record<string, string | undefined>, about: string) {
  const finding = (await examine(environment)).find((one) => one.about === about)
  if (finding === undefined) throw new Error(`Nothing was said about ${about}`)
  return finding
}

test('all is well, and the platform was asked without breaking a rule', async () => {
  const { platform, environment } = await surroundings()
  const findings = await examine(environment)
  expect(findings.map(({ about }) => about)).toEqual([
    'settings',
    'Node.js',
    'words',
    'store',
    'token',
    'permissions',
  ])
  expect(findings.filter(({ well }) => !well)).toEqual([])
  expect(findings.at(-1)?.says).toBe('enough on 1 server')
  platform.assertClean()
})

test('wrong settings are named all at once, and nothing else is tried', async () => {
  const { platform, environment } = await surroundings()
  const wrong = {
    ...environment,
    PORT: 'many',
    CREW_TIMEZONE: 'Mars/North',
    LOG_LEVEL: 'loud',
    DISCORD_API: 'here',
  }
  const findings = await examine(wrong)
  expect(findings).toHaveLength(1)
  expect(findings[0]).toMatchObject({ about: 'settings', well: false })
  for (const name of ['PORT', 'CREW_TIMEZONE', 'LOG_LEVEL', 'DISCORD_API'])
    expect(findings[0]?.says).toContain(`- ${name}: `)
  expect(platform.requests).toEqual([])
})

test('a store that others on the machine can read is told, unless its folder keeps them out', async () => {
  const { folder, environment } = await surroundings()
  const file = path.join(folder, 'crew.sqlite')
  await examine(environment)
  chmodSync(file, 0o644)
  expect(await found(environment, 'store')).toMatchObject({ well: true })
  chmodSync(folder, 0o755)
  expect(await found(environment, 'store')).toMatchObject({
    well: false,
    says: expect.stringContaining('can be read by others on this machine'),
  })
  chmodSync(file, 0o600)
  expect(await found(environment, 'store')).toMatchObject({ well: true })
})

test('a refused token says where to get it', async () => {
  const { environment } = await surroundings()
  const finding = await found({ ...environment, DISCORD_TOKEN: 'nobody.knows.this' }, 'token')
  expect(finding).toMatchObject({ well: false, says: expect.stringContaining('copy it again') })
  expect(finding.says).not.toContain('nobody.knows.this')
})

test('without a token it says what opens instead', async () => {
  const { environment } = await surroundings()
  const finding = await found({ ...environment, DISCORD_TOKEN: '' }, 'token')
  expect(finding).toMatchObject({ well: false, says: expect.stringContaining('practice room') })
})

test('a platform that cannot be reached, or is in trouble, is told apart from a wrong token', async () => {
  const { platform, environment } = await surroundings()
  platform.faults.serverError({ method: 'GET', route: '/users/@me' }, { status: 503 })
  expect(await found(environment, 'token')).toMatchObject({
    well: false,
    says: 'Discord answers with 503: try again later',
  })
  await platform.stopListening()
  expect(await found(environment, 'token')).toMatchObject({
    well: false,
    says: expect.stringContaining('cannot be reached'),
  })
})

/** See channels and use commands, but neither write nor attach (Discord developer docs, topics/permissions). */
const VIEW = 1n << 10n

test('permissions that are lacking are named by server', async () => {
  const server = (name: string, botPermissions?: bigint) => ({
    name,
    channels: [{ name: `field-${name.slice(-5).toLowerCase()}` }],
    members: [{ user: 'demo.lead' }],
    ...(botPermissions === undefined ? {} : { botPermissions }),
  })
  const { environment } = await surroundings({
    users: [{ name: 'demo.lead' }],
    guilds: [server('Demo North'), server('Demo South', VIEW), server('Demo West', 1n << 3n)],
  })
  expect(await found(environment, 'permissions')).toEqual({
    about: 'permissions',
    well: false,
    says: 'Demo South: give it Send Messages, Attach Files',
  })
})

test('a bot on no server is told to be invited', async () => {
  const { environment } = await surroundings({ users: [{ name: 'demo.lead' }], guilds: [] })
  expect(await found(environment, 'permissions')).toMatchObject({
    well: false,
    says: expect.stringContaining('invite it'),
  })
})

test('a store whose folder cannot be made is named', async () => {
  const { folder, environment } = await surroundings()
  // Also for somebody to whom every folder is open: a file stands where the folder should be.
  writeFileSync(path.join(folder, 'taken'), '')
  const url = `sqlite:${path.join(folder, 'taken', 'crew.sqlite')}`
  const finding = await found({ ...environment, DATABASE_URL: url }, 'store')
  expect(finding).toMatchObject({ well: false, says: expect.stringContaining('crew.sqlite') })
})

test('a store that is no database is named', async () => {
  const { folder, environment } = await surroundings()
  const file = path.join(folder, 'notes.txt')
  writeFileSync(file, 'Not a database, but long enough to look like one. '.repeat(40))
  const finding = await found({ ...environment, DATABASE_URL: `sqlite:${file}` }, 'store')
  expect(finding).toMatchObject({ well: false, says: expect.stringMatching(/notes\.txt: .*database/) })
})

test('a practice database is not taken for the crew’s own', async () => {
  const { folder, environment } = await surroundings()
  const file = path.join(folder, 'practice.sqlite')
  await (await openDatabase({ engine: 'sqlite', path: file }, 'practice')).close()
  const finding = await found({ ...environment, DATABASE_URL: `sqlite:${file}` }, 'store')
  expect(finding).toMatchObject({ well: false, says: expect.stringContaining('practice') })
})

test('it prints a line for each, and its status says whether something is to be mended', async () => {
  const { environment } = await surroundings()
  const printed: string[] = []
  const write = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    printed.push(String(text))
    return true
  })
  onTestFinished(() => write.mockRestore())
  expect(await runDoctor(environment)).toBe(0)
  expect(printed).toHaveLength(6)
  expect(printed.every((line) => line.startsWith('well  '))).toBe(true)
  printed.length = 0
  expect(await runDoctor({ ...environment, DISCORD_TOKEN: '' })).toBe(1)
  expect(printed.filter((line) => line.startsWith('MEND  '))).toHaveLength(1)
})
