import { expect, test } from 'vitest'
import { verifyChain } from '#src/record/chain.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'
import { expectQuiet, type OnDiscord, startCrew } from './crew.ts'
import { workWholeJob } from './whole-job.ts'

const place = sqlitePlace()

/** A server and its people whose Discord speaks this language. */
const worldIn = (locale: 'en-US' | 'es-419') => ({
  users: [
    { name: 'demo.lead', locale },
    { name: 'demo.crew', locale },
  ],
  guilds: [
    {
      name: 'Demo Grounds',
      owner: 'demo.lead',
      channels: [{ name: 'field' }],
      members: [{ user: 'demo.lead' }, { user: 'demo.crew' }],
    },
  ],
})

/** The crew's language is chosen by its lead; its people's is what their Discord says. */
async function startIn(locale: 'en-US' | 'es-419'): Promise<OnDiscord> {
  const on = await startCrew(place, { world: worldIn(locale) })
  const options = { language: locale.slice(0, 2) }
  await on.platform.slash({ name: 'setup crew', user: 'demo.lead', channel: 'field', options }).message()
  return on
}

/** What was answered, without words: command, outcome, every figure. No hash of a record, and no minutes of now. */
const answersOf = (on: OnDiscord) =>
  on.look(async (store) =>
    (await store.turns.list({ limit: 1000 }))
      .map(({ command, reply: { outcome, facts } }) => {
        const figures = facts
          .filter(({ name }) => name !== 'head')
          .map(({ name, value }) => `${name}=${value}`)
        return [command, outcome, ...figures].join(' ').replace(/(T\d\d):[\d:.]+Z/g, '$1')
      })
      .sort(),
  )

test('the whole job in Spanish through the real client: Spanish words, the outcomes and figures of English, English records', async () => {
  const english = await startIn('en-US')
  await workWholeJob(english, 'en')

  const on = await startIn('es-419')
  const [weed, mixed, check, recorded, marked, early, , allowed, again] = await workWholeJob(on, 'es')
  expect(weed).toContain('Maleza: coquillo amarillo')
  expect(mixed).toContain('# 2.5 g de Tarnbrask 75 WDG')
  expect(mixed).toContain('llene hasta la marca de 1 gal')
  expect(check).toContain('¿está bien?')
  expect(recorded).toContain('R1 quedó registrado')
  expect(marked).toContain('Primera revisión: lun, 18 de may de 2026')
  expect(early).toContain('25 % de control: espere hasta el lun, 1 de jun de 2026')
  expect(allowed).toContain('52 % de control: segunda aplicación permitida desde el lun, 15 de jun de 2026')
  expect(again).toContain('¿Qué tiene adentro ahora?')
  expect(await answersOf(on)).toEqual(await answersOf(english))

  const kept = await on.look((store) => store.records.pageLinks(0, 10))
  expect(verifyChain(kept)).toEqual([])
  expect(JSON.stringify(kept)).not.toMatch(/maleza|pasto|onza|aplicaci|báscula|medid/i)
  expectQuiet(on)
  expectQuiet(english)
}, 120_000)
