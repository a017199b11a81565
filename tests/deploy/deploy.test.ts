import { spawnSync } from 'node:child_process'
import { chownSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { beforeAll, expect, onTestFinished, test } from 'vitest'
import { projectRoot } from '#src/project.ts'

const root = projectRoot()
const text = (name: string) => readFileSync(path.join(root, 'docs', 'deploy', name), 'utf8')
const NOBODY = 65_534

/** Runs what was built, as a user without rights where this one may become it, in a folder that holds its data. */
function runBuilt(file: string, args: readonly string[], input: string, data: string) {
  const isRoot = process.getuid?.() === 0
  if (isRoot) chownSync(data, NOBODY, NOBODY)
  return spawnSync(process.execPath, [path.join(root, '.cache', file), ...args], {
    cwd: root,
    input,
    encoding: 'utf8',
    env: {
      PATH: process.env.PATH,
      DATABASE_URL: `sqlite:${path.join(data, 'swardhand.sqlite')}`,
      FILES_FOLDER: path.join(data, 'files'),
      BACKUPS_FOLDER: path.join(data, 'backups'),
    },
    ...(isRoot ? { uid: NOBODY, gid: NOBODY } : {}),
  })
}

beforeAll(() => {
  const built = spawnSync(process.execPath, ['src/build.mjs'], { cwd: root, encoding: 'utf8' })
  expect(built.stderr).toBe('')
  expect(built.status).toBe(0)
})

test('what was built answers and is backed up by a user who may write to the data folder alone', () => {
  const data = mkdtempSync(path.join(tmpdir(), 'swardhand-deploy-'))
  onTestFinished(() => rmSync(data, { recursive: true, force: true }))
  mkdirSync(path.join(data, 'files'))
  const line = '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2"\n'
  const asked = [
    'room',
    '--json',
    '--at',
    '2026-07-01T15:00:00Z',
    '--database',
    `sqlite:${path.join(data, 'swardhand.sqlite')}`,
  ]
  const answer = runBuilt('main.cjs', asked, line, data)
  expect(answer.stderr).toBe('')
  expect(JSON.parse(answer.stdout)).toMatchObject({ number: '1', facts: { concentrate: { unit: 'oz wt' } } })
  const backup = runBuilt('backup.cjs', ['backup', '--json'], '', data)
  expect(backup.stderr).toBe('')
  expect(JSON.parse(backup.stdout)).toMatchObject({ missing: [] })
  expect(readdirSync(path.join(data, 'backups'))).toHaveLength(1)
})

test('the container runs what the build makes, as a user without rights, with one volume', () => {
  const steps = text('Containerfile')
  expect(steps).toContain('RUN npm ci --omit=dev')
  expect(steps).toContain('RUN npm run build')
  expect(steps).toContain('.cache/main.cjs')
  expect(steps.match(/^USER (\d+):\d+$/m)?.[1]).not.toBe('0')
  expect(steps.match(/^VOLUME .*$/gm)).toEqual(['VOLUME /data'])
  expect(text('Containerfile.containerignore').split('\n')).toEqual(expect.arrayContaining(['.env', '.data']))
})

test.each([
  ['swardhand.service', 'Environment=HEALTH_PORT=4781'],
  ['swardhand@.service', 'Environment=SHARDS=%i'],
])('%s runs the same, restarts always, and may write to its own folder alone', (file, own) => {
  const unit = text(file)
  for (const line of [
    'ExecStart=/usr/bin/env node --max-semi-space-size=4 --max-old-space-size=512 .cache/main.cjs',
    'Restart=always',
    'User=swardhand',
    'ProtectSystem=strict',
    'StateDirectory=swardhand',
    'NoNewPrivileges=yes',
    own,
  ])
    expect(unit.split('\n')).toContain(line)
})
