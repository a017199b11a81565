import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { projectRoot } from '#src/project.ts'
import { words } from './sayable.ts'

const folders = ['calculator/calibrate', 'calculator/area', 'calculator/order', 'calculator/spot', 'weather']

const sources = folders
  .flatMap((folder) => {
    const place = path.join(projectRoot(), 'src', folder)
    return readdirSync(place, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => readFileSync(path.join(place, name), 'utf8'))
  })
  .join('\n')

/** Ids written out in the code, and the beginnings of those that are put together. */
const written = new Set(
  [...sources.matchAll(/'((?:calibrate|area|order|spot|weather)\.[a-z0-9.-]+)'/g)].map((m) => m[1] ?? ''),
)
const begun = [...sources.matchAll(/`((?:calibrate|area|order|spot|weather)\.[a-z0-9.-]*)\$\{/g)].map(
  (m) => m[1] ?? '',
)
describe('sentences', () => {
  test('every id in the code has one', () => {
    expect([...written].filter((id) => words.source('en', id) === null)).toEqual([])
  })

  test('ids that are put together begin with more than their room', () => {
    expect(begun.filter((start) => /^[a-z]+\.$/.test(start))).toEqual([])
  })

  test('every one is used', () => {
    const isUsed = (id: string) => written.has(id) || begun.some((start) => id.startsWith(start))
    const own = words.ids('en').filter((id) => /^(calibrate|area|order|spot|weather)\./.test(id))
    expect(own.length).toBeGreaterThan(100)
    expect(own.filter((id) => !isUsed(id))).toEqual([])
  })
})
