import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { keptBeside } from '#src/kept.ts'

/** The folder of a bundle, and a folder of data beside it. */
function project() {
  const root = mkdtempSync(path.join(tmpdir(), 'swardhand-kept-'))
  onTestFinished(() => rmSync(root, { recursive: true, force: true }))
  const [bundle, data] = [path.join(root, '.cache', 'main-1'), path.join(root, 'data')]
  mkdirSync(bundle, { recursive: true })
  mkdirSync(path.join(data, 'words'), { recursive: true })
  writeFileSync(path.join(data, 'words', 'mix.json'), '{}')
  return { bundle, data, file: path.join(data, 'words', 'mix.json') }
}

test('what a start has found is there for the next one, until a file of data changes', () => {
  const { bundle, data, file } = project()
  const look = () => keptBeside<string[]>(bundle, 'start', data)
  expect(look().found).toBe(null)
  look().keep(['mix'])
  expect(look().found).toEqual(['mix'])

  writeFileSync(file, '{"mix.done":"Done"}')
  expect(look().found).toBe(null)
  look().keep(['mix', 'jar'])
  utimesSync(file, 1_000_000, 1_000_000)
  expect(look().found).toBe(null)
  look().keep(['mix', 'jar'])
  expect(look().found).toEqual(['mix', 'jar'])

  writeFileSync(path.join(data, 'new.json'), '')
  expect(look().found).toBe(null)
})

test('nothing is kept outside of a bundle, and nothing goes wrong where it cannot be written or read', () => {
  const { bundle, data } = project()
  const outside = keptBeside(path.join(data, 'words'), 'start', data)
  outside.keep('found')
  expect(existsSync(path.join(data, 'words', 'start.json'))).toBe(false)

  const gone = keptBeside(path.join(path.dirname(bundle), 'gone'), 'start', data)
  gone.keep('found')
  expect(gone.found).toBe(null)

  keptBeside(bundle, 'start', data).keep('found')
  const kept = path.join(bundle, 'start.json')
  writeFileSync(kept, readFileSync(kept, 'utf8').slice(0, 20))
  expect(keptBeside(bundle, 'start', data).found).toBe(null)
})
