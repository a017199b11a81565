import { expect, test } from 'vitest'
import { DEMO_CREW_KEY } from '#src/messengers/room/demo.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew, updateCrew } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { PSEUDO } from '#src/words/pseudo.ts'
import { inChromium, type Stage } from './browser.ts'
import { lookAround } from './look-around.ts'
import { seriousOf, troubleOf } from './trouble.ts'
import { STATES, workWholeJob } from './whole-job.ts'
import { DESK, PHONE, SMALL_PHONE, type WindowParts } from './window.ts'

/** Everybody reads in this language from now on. */
function setLanguage(database: Database, language: string) {
  return write(database, async (db) => {
    const crew = await findCrew(db, DEMO_CREW_KEY)
    if (crew === undefined) throw new Error('The demo crew is gone')
    await updateCrew(db, crew.id, { language })
    const { people } = crewStore(db, crew.id)
    for (const { id } of await people.list()) await people.update(id, { language })
  })
}

/** The newest link of the records' chain, which holds the second at which each was kept. */
const HASH = 'head'

/** What was answered, without words: command, outcome, and every figure. How the clock was moved is no answer. */
function answersOf(database: Database) {
  return write(database, async (db) => {
    const crew = await findCrew(db, DEMO_CREW_KEY)
    const turns = await crewStore(db, crew?.id ?? 0).turns.list({ limit: 1000 })
    return turns
      .filter(({ command }) => command !== 'clock')
      .map(({ command, reply: { outcome, facts } }) => {
        const figures = facts.filter(({ name }) => name !== HASH).map(({ name, value }) => `${name}=${value}`)
        return [command, outcome, ...figures].join(' ')
      })
      .sort()
  })
}

/** Does the whole job, and looks at each state of the page with the eyes of a glove, of the sun, and of axe. */
async function work(stage: Stage, locale: string, parts: WindowParts) {
  await setLanguage(stage.room.bot.database, locale)
  const window = await stage.window('bex', parts)
  const seen: Record<string, string> = {}
  const trouble: string[] = []
  await workWholeJob({
    window,
    words: stage.room.bot.words,
    locale,
    see: async (state, slip) => {
      seen[state] = ((await slip.locator('h2').textContent()) ?? '').replace(/\s+/g, ' ')
      for (const one of [...(await troubleOf(window.page)), ...(await seriousOf(window.page))])
        trouble.push(`${state}: ${one}`)
    },
  })
  expect(trouble).toEqual([])
  expect(Object.keys(seen)).toEqual([...STATES])
  expect(stage.room.errors).toEqual([])
  return { seen, answers: await answersOf(stage.room.bot.database) }
}

/** The job in English, for the others to be compared with. */
let inEnglish: Awaited<ReturnType<typeof answersOf>> = []

inChromium('the whole job in English at 360 × 740', (stage) => {
  test('weed, amount, record, plots, three looks, and a second treatment', async () => {
    const { seen, answers } = await work(stage, 'en', { size: PHONE })
    expect(seen).toMatchObject({
      weed: expect.stringContaining('Weed: Yellow nutsedge'),
      mix: expect.stringContaining('2.5 g'),
      recorded: expect.stringContaining('R1'),
      wait: expect.stringContaining('wait until Mon, Jun 1, 2026'),
      allowed: expect.stringContaining('second treatment allowed from Mon, Jun 15, 2026'),
    })
    inEnglish = answers
  }, 120_000)
})

inChromium('the whole job in Spanish at 1280 × 800', (stage) => {
  test('says it in Spanish, with the outcomes and figures of the English one', async () => {
    const { seen, answers } = await work(stage, 'es', { size: DESK, isDark: true })
    expect(seen).toMatchObject({
      weed: expect.stringContaining('Maleza: coquillo amarillo'),
      mix: expect.stringContaining('2.5 g'),
      recorded: expect.stringContaining('quedó registrado'),
      wait: expect.stringContaining('espere hasta el lun, 1 de jun de 2026'),
      allowed: expect.stringContaining('segunda aplicación permitida desde el lun, 15 de jun de 2026'),
    })
    expect(answers).toEqual(inEnglish)
  }, 120_000)
})

inChromium('a language two fifths longer, at 320 × 640', (stage) => {
  const size = SMALL_PHONE

  test('through the whole job nothing is cut off, and nothing scrolls sideways', async () => {
    const { answers } = await work(stage, PSEUDO, { size })
    expect(answers).toEqual(inEnglish)
  }, 120_000)

  test('nor in the tour, the commands, their forms, the clock, and the choice of who one is', async () => {
    expect(await lookAround(await stage.window('bex', { size, isDark: true, hasTour: true }))).toEqual([])
  }, 60_000)
})
