import { expect, test } from 'vitest'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { write } from '#src/store/transaction.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { keepRecord } from '#tests/helpers/keep-record.ts'
import { buttonIn, isPrivate, textOf } from '#tests/messengers/discord/seen.ts'
import { expectQuiet, type OnDiscord, startCrew } from './crew.ts'

const lead = { user: 'demo.lead', channel: 'office' }
const crew = { user: 'demo.crew', channel: 'field' }

/** Keeps a record on each of these days. */
async function keep({ bot, platform }: OnDiscord, days: readonly string[]): Promise<void> {
  await write(bot.database, async (db) => {
    const found = await findCrew(db, crewKeyOf(platform.world.guild(undefined).id))
    if (found === undefined) throw new Error('The crew is gone')
    const store = crewStore(db, found.id)
    const [person] = await store.people.list()
    for (const date of days) await keepRecord(store, { personId: person?.id ?? 0, record: { date } })
  })
}

eachEngine('papers on Discord', (place) => {
  test('a lead gets a table of the records as a file, and nobody else sees it', async () => {
    const on = await startCrew(place)
    await keep(on, ['2026-05-01', '2026-05-02'])
    const fired = on.platform.slash({
      name: 'record export',
      ...lead,
      options: { for: 'inspector', format: 'csv' },
    })
    const { message, files } = await fired.edit()
    expect(isPrivate(message)).toBe(true)
    expect(textOf(message)).toContain('2 records for an inspector')
    expect(files).toMatchObject([
      { name: expect.stringMatching(/^1_records-inspector-.+\.csv$/), contentType: 'text/csv' },
    ])
    on.platform.assertClean()
    expectQuiet(on)
  })

  test('the crew gets what somebody needs who treats a person, and no paper for an inspector', async () => {
    const on = await startCrew(place)
    await keep(on, ['2026-05-02'])
    const refused = on.platform.slash({ name: 'record export', ...crew, options: { for: 'inspector' } })
    expect(textOf((await refused.edit()).message)).toContain('Only a lead hands this out')
    const treating = on.platform.slash({ name: 'record export', ...crew, options: { for: 'treating' } })
    const { message, files } = await treating.edit()
    expect(textOf(message)).toContain('active inventol 75 % ai')
    expect(files.map(({ contentType }) => contentType)).toEqual(['application/pdf'])
    on.platform.assertClean()
    expectQuiet(on)
  })

  test('records are found, paged and opened by pressing', async () => {
    const on = await startCrew(place)
    await keep(
      on,
      Array.from({ length: 11 }, (_, at) => `2026-04-${String(at + 10)}`),
    )
    const found = on.platform.slash({ name: 'records', ...crew })
    const message = await found.message()
    expect(isPrivate(message)).toBe(true)
    expect(textOf(message)).toContain('R11')
    const older = on.platform.press({ message, customId: buttonIn(message, 'Older') })
    const next = await older.message()
    expect(textOf(next)).toContain('R1 ')
    const opened = on.platform.press({ message: next, customId: buttonIn(next, 'Show R1') })
    expect(textOf(await opened.message())).toContain('Invented 75 WDG')
    on.platform.assertClean()
    expectQuiet(on)
  })
})
