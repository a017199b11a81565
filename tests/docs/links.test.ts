import { existsSync, readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'
import { projectRoot } from '#src/project.ts'

const root = projectRoot()
const ROOT_PAGES = ['README.md', 'DEVELOPERS.md']

/** What a page links to or shows, as paths below the project's folder; other addresses and places in a page left out. */
function targetsOf(page: string): string[] {
  const text = readFileSync(path.join(root, page), 'utf8')
  const found = [...text.matchAll(/\]\(([^)\s]+)\)|<img src="([^"]+)"/g)].map(
    ([, link, image]) => link ?? image ?? '',
  )
  return found
    .filter((target) => !/^(https?:|#)/.test(target))
    .map((target) => path.join(path.dirname(page), target.replace(/#.*$/, '')))
}

const docs = readdirSync(path.join(root, 'docs'), { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.md'))
  .map((file) => path.join('docs', file))

test.each([...ROOT_PAGES, ...docs])('%s: every link leads somewhere, every picture is there', (page) => {
  expect(targetsOf(page).filter((target) => !existsSync(path.join(root, target)))).toEqual([])
})

test('every page of docs/ is reached from the README', () => {
  const reached = new Set<string>()
  const visit = (page: string) => {
    if (reached.has(page) || !page.endsWith('.md') || !existsSync(path.join(root, page))) return
    reached.add(page)
    for (const target of targetsOf(page)) visit(target)
  }
  visit('README.md')
  expect(docs.filter((page) => !reached.has(page))).toEqual([])
})

test('every kept picture of the page is shown somewhere, and names what it shows', () => {
  const pictures = readdirSync(path.join(root, 'docs', 'pictures')).map((file) =>
    path.join('docs', 'pictures', file),
  )
  const shown = new Set([...ROOT_PAGES, ...docs].flatMap(targetsOf))
  expect(pictures.filter((picture) => !shown.has(picture))).toEqual([])
  for (const page of [...ROOT_PAGES, ...docs])
    expect(
      readFileSync(path.join(root, page), 'utf8').match(/<img (?![^>]*alt="[^"]{10,}")[^>]*>/g),
    ).toBeNull()
})
