import { type ChildProcess, execFileSync, spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, onTestFinished, test, vi } from 'vitest'
import { projectRoot } from '#src/project.ts'
import { startStage } from '#tests/e2e-discord/stand-in.ts'
import { freePort } from '#tests/helpers/live-settings.ts'
import { textOf } from '#tests/messengers/discord/seen.ts'
import { type ContainerFile, readContainerFile } from './container-steps.ts'

const root = projectRoot()
const deploy = (name: string) => readFileSync(path.join(root, 'docs', 'deploy', name), 'utf8')
const ENTER = path.join(import.meta.dirname, 'in-container.sh')
const MINUTE_MS = 60_000

/** The steps fetch packages and need root: they are for the machine that checks every change. */
const isWanted = process.env.REQUIRE_CONTAINER === '1'

const file: ContainerFile = readContainerFile(deploy('Containerfile'))
const [volume = ''] = file.volumes

test('the container file is read whole, and says what a closed root needs', () => {
  expect(file.build.map(({ name, rest }) => `${name} ${rest}`)).toContain('RUN npm ci --omit=dev')
  expect(file.volumes).toEqual(['/data'])
  expect(file.user).not.toMatch(/^0\b|^root\b/)
  // Whatever the program is told to write lies on the volume.
  const places = Object.values(file.environment).filter((value) => value.includes('/'))
  expect(places.every((place) => place.replace('sqlite:', '').startsWith(`${volume}/`))).toBe(true)
  expect(() => readContainerFile('FROM a\nFROM b\nADD x y\n')).toThrow('Cannot run ADD')
})

describe.skipIf(!isWanted)('its steps, run one after another without an engine', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-container-'))
  const [app, data, newRoot] = ['app', 'data', 'root'].map((name) => path.join(folder, name)) as [
    string,
    string,
    string,
  ]
  afterAll(() => rmSync(folder, { recursive: true, force: true }))

  beforeAll(() => {
    expect(process.getuid?.()).toBe(0)
    chmodSync(folder, 0o755)
    for (const place of [app, data, newRoot]) mkdirSync(place)
    for (const { name, rest } of file.build) {
      if (name === 'COPY') copy(rest, app)
      else execFileSync('/bin/sh', ['-euc', rest], { cwd: app, stdio: ['ignore', 'ignore', 'inherit'] })
    }
  }, 10 * MINUTE_MS)

  const enter = (command: readonly string[], environment: Readonly<Record<string, string>> = {}) => [
    '--mount',
    ENTER,
    ...[newRoot, app, file.folder, data, volume, file.user, file.prepare.join('\n')],
    ...Object.entries({ ...file.environment, ...environment }).map(([name, value]) => `${name}=${value}`),
    ...command,
  ]
  const inside = (command: readonly string[], environment: Readonly<Record<string, string>> = {}) =>
    spawnSync('unshare', enter(command, environment), { encoding: 'utf8', env: { PATH: process.env.PATH } })

  test('nothing can be written but the volume and what is gone with the process', () => {
    const tried = ['/', file.folder, `${file.folder}/.cache`, '/etc', '/usr', volume, '/tmp']
    const said = inside([
      '/bin/sh',
      '-c',
      `for place in ${tried.join(' ')}; do touch "$place/tried" 2>/dev/null && echo "$place"; done; true`,
    ])
    expect(said.stderr).toBe('')
    expect(said.stdout.trim().split('\n')).toEqual([volume, '/tmp'])
    rmSync(path.join(data, 'tried'))
  })

  test(
    'it runs without any right, answers on the messenger, is well, and ends when told to',
    async () => {
      const { platform } = await startStage()
      const port = String(await freePort())
      const live = {
        DISCORD_TOKEN: platform.token,
        DISCORD_API: platform.api,
        CREW_TIMEZONE: 'America/Chicago',
        PORT: '',
        HEALTH_PORT: port,
      }
      const child = spawn('unshare', enter(file.command, live), {
        env: { PATH: process.env.PATH },
        stdio: ['ignore', 'pipe', 'pipe'],
      })
      const output = listen(child)
      onTestFinished(() => {
        if (child.exitCode === null && child.signalCode === null) child.kill('SIGKILL')
      })
      await vi.waitFor(
        () => {
          expect(child.exitCode, output()).toBeNull()
          expect(output()).toContain('"msg":"ready"')
        },
        { timeout: MINUTE_MS, interval: 50 },
      )
      const status = readFileSync(`/proc/${child.pid}/status`, 'utf8')
      const [uid] = file.user.split(':')
      expect(status).toMatch(new RegExp(`^Uid:\\t${uid}\\t${uid}\\t${uid}\\t${uid}$`, 'm'))
      for (const rights of ['CapInh', 'CapPrm', 'CapEff', 'CapBnd', 'CapAmb'])
        expect(status).toMatch(new RegExp(`^${rights}:\\t0+$`, 'm'))
      expect(status).toMatch(/^NoNewPrivs:\t1$/m)

      const options = { rate: '0.113 oz wt/1000 ft2', tank: '2 gal', output: '1 gal/1000 ft2' }
      const message = await platform
        .slash({ name: 'mix', user: 'demo.crew', channel: 'field', options })
        .message()
      expect(textOf(message)).toContain('0.226 oz wt of the product')

      const healthy = file.health.map((part) => part.replace(file.environment.HEALTH_PORT ?? 'none', port))
      expect(inside(healthy).status).toBe(0)
      child.kill('SIGTERM')
      const [code] = await once(child, 'exit')
      expect(code, output()).toBe(0)
      expect(inside(healthy).status).toBe(1)
      for (const name of readdirSync(data)) expect(String(statSync(path.join(data, name)).uid)).toBe(uid)
      expect(readdirSync(data)).toContain('swardhand.sqlite')
    },
    3 * MINUTE_MS,
  )
})

/** `COPY a b ./` and `COPY . .` from what is kept of this tree, less what the ignore file leaves out. */
function copy(rest: string, app: string): void {
  const names = rest.split(/\s+/).slice(0, -1)
  const left = deploy('Containerfile.containerignore').split('\n').filter(Boolean)
  const kept = execFileSync('git', ['ls-files', '-co', '--exclude-standard', '-z'], {
    cwd: root,
    encoding: 'utf8',
  })
    .split('\0')
    .filter((name) => name !== '' && !left.includes(name.split('/')[0] ?? '') && !/\.log$/.test(name))
  for (const name of kept)
    if (names.includes('.') || names.includes(name))
      cpSync(path.join(root, name), path.join(app, name), { recursive: true })
}

function listen(child: ChildProcess): () => string {
  const printed: string[] = []
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (part) => printed.push(String(part)))
  return () => printed.join('')
}
