import { spawnSync } from 'node:child_process'
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { bundleForNow } from '#src/bundle.mjs'

/** A project of its own, with these files. */
function project(files: Readonly<Record<string, string>>): string {
  const root = mkdtempSync(path.join(tmpdir(), 'swardhand-bundle-'))
  onTestFinished(() => rmSync(root, { recursive: true, force: true }))
  mkdirSync(path.join(root, '.cache'))
  for (const [name, text] of Object.entries({ 'package.json': '{"type":"module"}', ...files })) {
    mkdirSync(path.dirname(path.join(root, name)), { recursive: true })
    writeFileSync(path.join(root, name), text)
  }
  return root
}

function run(file: string, options: { readonly uid?: number } = {}) {
  const { stdout, stderr, status } = spawnSync(process.execPath, [file], { encoding: 'utf8', ...options })
  return { stdout, stderr, status }
}

const codesOf = (file: string) => readdirSync(path.dirname(file)).filter((name) => name.startsWith('code-'))

const PROGRAM = {
  'main.ts': `
    import { EventEmitter as Bell, once } from 'node:events'
    import path, * as paths from 'node:path'
    import plain, { named as other } from 'plain'
    import { count, raise } from './count.ts'
    const bell = new Bell()
    setTimeout(() => bell.emit('rung', 'later'))
    const [said] = await once(bell, 'rung')
    const { late } = await import('./late.ts')
    const { default: modern } = await import('modern')
    raise()
    console.log([said, path.basename('a/b'), paths.basename('c/d'), plain.named, other, late, modern, count(), /−/.test('\\u2212')].join(' '))
  `,
  'count.ts':
    'let counted = 0\nexport const count = () => counted\nexport function raise() { counted += 1 }\n',
  'late.ts': "import { raise } from './count.ts'\nraise()\nexport const late = 'unhurried'\n",
  'node_modules/plain/package.json': '{"name":"plain","main":"index.js"}',
  'node_modules/plain/index.js': "exports.named = 'said'",
  'node_modules/modern/package.json': '{"name":"modern","type":"module","exports":"./index.js"}',
  'node_modules/modern/index.js': "export default 'new'",
}
const SAID = 'later b d said said unhurried new 2 true\n'

test('a program runs as its modules would, the first time and with the code that was kept of it', async () => {
  const root = project(PROGRAM)
  const { file } = await bundleForNow(root, 'main.ts')
  expect(codesOf(file)).toEqual([])
  expect(run(file)).toEqual({ stdout: SAID, stderr: '', status: 0 })
  expect(codesOf(file)).toHaveLength(1)
  expect(run(file)).toEqual({ stdout: SAID, stderr: '', status: 0 })
})

test('a program that stays keeps its code while it runs, and in the end what it has loaded since', async () => {
  const root = project({
    'main.ts': `
      import { existsSync, readdirSync } from 'node:fs'
      import path from 'node:path'
      const folder = import.meta.dirname
      const kept = () =>
        readdirSync(folder)
          .filter((name) => name.startsWith('code-'))
          .flatMap((name) => readdirSync(path.join(folder, name)))
          .filter((name) => name.endsWith('.cjs'))
      const look = setInterval(async () => {
        if (!existsSync(folder) || kept().length === 0) return
        clearInterval(look)
        const { late } = await import('./late.ts')
        console.log(late, kept().length)
      }, 20)
    `,
    'late.ts': "export const late = 'unhurried'\n",
  })
  const { file } = await bundleForNow(root, 'main.ts')
  expect(run(file)).toEqual({ stdout: 'unhurried 1\n', stderr: '', status: 0 })
  const [codes = ''] = codesOf(file)
  const names = readdirSync(path.join(path.dirname(file), codes))
  expect(names.filter((name) => name.endsWith('.cjs'))).toHaveLength(2)
  expect(names.filter((name) => !name.endsWith('.cjs'))).toEqual([])
})

test('an error names the lines of the sources, caught or not', async () => {
  const root = project({
    'main.ts':
      "import { fail } from './fail.ts'\n\ntry {\n  fail()\n} catch (error) {\n  console.log((error as Error).stack)\n}\nfail()\n",
    'fail.ts': "export function fail() {\n  throw new Error('no')\n}\n",
  })
  const { file } = await bundleForNow(root, 'main.ts')
  const { stdout, stderr } = run(file)
  expect(stdout).toContain(`at fail (${path.join(root, 'fail.ts')}:2:9)`)
  expect(stdout).toContain(`${path.join(root, 'main.ts')}:4:3`)
  expect(stderr).toContain(`${path.join(root, 'main.ts')}:8:1`)
})

test('code that the engine does not take is passed over, and made anew', async () => {
  const { file } = await bundleForNow(project(PROGRAM), 'main.ts')
  run(file)
  const folder = path.join(path.dirname(file), codesOf(file)[0] ?? '')
  writeFileSync(path.join(folder, 'main.cjs'), 'of another engine')
  expect(run(file)).toEqual({ stdout: SAID, stderr: '', status: 0 })
  expect(run(file).stdout).toBe(SAID)
})

test.runIf(process.getuid?.() === 0)('where nothing may be written it runs all the same', async () => {
  const root = project(PROGRAM)
  const { file } = await bundleForNow(root, 'main.ts')
  chmodSync(root, 0o755)
  expect(run(file, { uid: 65_534 })).toEqual({ stdout: SAID, stderr: '', status: 0 })
  expect(codesOf(file)).toEqual([])
})

test('a bundle is taken again until something that it was made of changes', async () => {
  const root = project(PROGRAM)
  const first = await bundleForNow(root, 'main.ts')
  const second = await bundleForNow(root, 'main.ts')
  expect(second.file).toBe(first.file)
  writeFileSync(path.join(root, 'late.ts'), "export const late = 'earlier'\n")
  const third = await bundleForNow(root, 'main.ts')
  expect(third.file).not.toBe(first.file)
  expect(run(third.file).stdout).toContain('earlier')
  // Whoever runs the old one may yet load some of its files.
  expect(run(first.file).stdout).toBe(SAID)
})

test('an old bundle goes once nobody uses it', async () => {
  const root = project({ 'main.ts': "console.log('one')" })
  const folders = []
  for (const word of ['two', 'three', 'four']) {
    const { file, remove } = await bundleForNow(root, 'main.ts')
    folders.push(path.dirname(file))
    if (word !== 'two') remove()
    writeFileSync(path.join(root, 'main.ts'), `console.log('${word}')`)
  }
  for (const folder of folders) utimesSync(folder, 1000, 1000)
  await bundleForNow(root, 'main.ts')
  expect(folders.map((folder) => existsSync(folder))).toEqual([true, false, false])
})

test('an old bundle that another start has just removed keeps nobody from starting', async () => {
  const root = project({ 'main.ts': "console.log('here')" })
  // Listed, and not there any more: as a folder is that goes between the two looks.
  symlinkSync(path.join(root, 'gone'), path.join(root, '.cache', 'main-0123456789ab'))
  const old = path.join(root, '.cache', 'main-fedcba987654')
  mkdirSync(old)
  utimesSync(old, 1000, 1000)
  const { file } = await bundleForNow(root, 'main.ts')
  expect(run(file)).toMatchObject({ stdout: 'here\n', status: 0 })
  expect(existsSync(old)).toBe(false)
})

test('an error that nobody caught names the line of its source', async () => {
  const root = project({ 'main.ts': "import { fall } from './fall.ts'\n\nfall()\n", 'fall.ts': FALL })
  const { file } = await bundleForNow(root, 'main.ts')
  const { stderr, status } = run(file)
  expect(status).toBe(1)
  expect(stderr).toContain(`Error: down\n    at fall (${path.join(root, 'fall.ts')}:4:9)`)
  expect(stderr).toContain(`${path.join(root, 'main.ts')}:3:1`)
})
const FALL = '/** What it does. */\n\nexport function fall(): never {\n  throw new Error("down")\n}\n'

test('no map is read for the errors that Node throws away when a stream has been read', async () => {
  const root = project({
    'main.ts': `
      const parse = JSON.parse
      let read = 0
      JSON.parse = (text: string) => {
        read += text.includes('"mappings"') ? 1 : 0
        return parse(text)
      }
      const parts = new ReadableStream({ start: (one) => one.close() })[Symbol.asyncIterator]()
      const next = () => parts.next()
      console.log((await next()).done)
      const before = read
      console.log(before, new Error('no').stack?.includes('main.ts'), read)
    `,
  })
  const { file } = await bundleForNow(root, 'main.ts')
  expect(run(file)).toEqual({ stdout: 'true\n0 true 1\n', stderr: '', status: 0 })
})
