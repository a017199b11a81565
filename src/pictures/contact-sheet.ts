/**
 * Draws the contact sheets of the key's figures: `npm run figures`.
 * `--out FOLDER` where they go, default docs/figures; `--only ID,ID` some characters;
 * `--shuffle SEED` without words, in a random order that the seed decides, with the answers in a file beside them.
 */
import { mkdirSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { parseArgs } from 'node:util'
import sharp from 'sharp'
import { projectRoot } from '#src/project.ts'
import { figures } from './figures/index.ts'
import { renderPng } from './render.ts'
import { type SheetCell, sheetSvg } from './sheet.ts'
import { shuffled } from './shuffled.ts'
import { writeSvg } from './svg.ts'
import type { ThemeName } from './theme.ts'

const { values: options } = parseArgs({
  options: { out: { type: 'string' }, only: { type: 'string' }, shuffle: { type: 'string' } },
})
const folder = path.resolve(options.out ?? path.join(projectRoot(), 'docs/figures'))
const only = options.only?.split(',')
const seed = options.shuffle

mkdirSync(folder, { recursive: true })
const answers: Record<string, Record<string, string>> = {}
let bytes = 0
for (const [character, set] of Object.entries(figures)) {
  if (only !== undefined && !only.includes(character)) continue
  const states = seed === undefined ? Object.keys(set) : shuffled(Object.keys(set), `${seed} ${character}`)
  const cells = states.map((state, at) => ({
    character,
    state,
    label: seed === undefined ? state : `${at + 1}`,
  }))
  answers[character] = Object.fromEntries(states.map((state, at) => [`${at + 1}`, state]))
  bytes += await writeSheet(character, cells)
}
if (seed !== undefined)
  writeFileSync(path.join(folder, 'answers.json'), `${JSON.stringify(answers, null, 2)}\n`)
console.log(`${Object.keys(answers).length} sheets, ${Math.round(bytes / 1024)} KB, in ${folder}`)

/** Light above dark in one picture of few tones. Returns its size in bytes. */
async function writeSheet(character: string, cells: readonly SheetCell[]): Promise<number> {
  const columns = Math.min(cells.length, cells.length > 12 ? 8 : cells.length > 8 ? 6 : 4)
  const halves = await Promise.all(
    (['light', 'dark'] satisfies ThemeName[]).map(async (theme) => {
      const svg = writeSvg(sheetSvg(character, cells, { theme, columns }))
      return Buffer.from(await renderPng(svg, { widthPx: 12 + columns * 172 }))
    }),
  )
  const joined = await sharp(halves, { join: { across: 1 } })
    .png({ palette: true, colors: 32, effort: 10 })
    .toBuffer()
  writeFileSync(path.join(folder, `${character}.png`), joined)
  return joined.length
}
