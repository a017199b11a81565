import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { parse } from 'csv-parse/sync'
import { expect, onTestFinished, test } from 'vitest'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { verifyChain } from '#src/record/chain.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { isSound, readRecord } from '#src/records/read-record.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { write } from '#src/store/transaction.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { isPrivate, textOf } from '#tests/messengers/discord/seen.ts'
import { loadStateRules } from '../../data/states/load.ts'
import { expectQuiet, type OnDiscord, startCrew } from './crew.ts'
import { fillForms, type Message, press, pressOn } from './pressing.ts'
import { HAND_CAN, SITE } from './seed.ts'

const crew = { user: 'demo.crew', channel: 'field' }
const MIX = {
  product: 'Tarnbrask 75 WDG',
  sprayer: HAND_CAN,
  tank: '1/2',
  site: SITE,
  area: 'front',
  weed: 'yellow nutsedge',
}

/** The first page of a PDF, drawn as PNG by another program. */
function firstPageOf(pdf: Uint8Array): Buffer {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-page-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  const place = path.join(folder, 'record')
  writeFileSync(place, pdf)
  execFileSync('pdftoppm', ['-r', '40', '-f', '1', '-l', '1', '-singlefile', '-png', place, place])
  return readFileSync(`${place}.png`)
}

/** Mixed, poured, and pressed on to the first short form. */
async function begin({ platform }: OnDiscord): Promise<Message> {
  const mixed = await platform.slash({ name: 'mix', ...crew, options: MIX }).message()
  const labels = ['Log mix 1', 'Washed, all went well', 'A strip or a part']
  return pressOn(platform, mixed, `Poured into ${HAND_CAN}`, ...labels)
}

eachEngine('an application written down on Discord', (place) => {
  test('from “poured” to the record in presses and short forms, with a restart between; the chain holds', async () => {
    const on = await startCrew(place)
    const form = await begin(on)
    expect(isPrivate(form)).toBe(true)
    await on.restart()
    const look = await fillForms(on.platform, form)
    expect(textOf(look)).toContain('is this right?')
    const kept = await press(on.platform, look, 'Yes, record it').message()
    expect(textOf(kept)).toContain('R1 is recorded')
    const links = await on.look((store) => store.records.pageLinks(0, 10))
    expect(verifyChain(links)).toEqual([])
    expect(links).toHaveLength(1)
    on.platform.assertClean()
    expectQuiet(on)
  })
})

eachEngine('every state’s table on Discord', (place) => {
  test.each([...loadStateRules().states.keys()])('%s: a complete record', async (state) => {
    const on = await startCrew(place)
    await on.platform
      .slash({ name: 'setup crew', user: 'demo.lead', channel: 'field', options: { state } })
      .message()
    await write(on.bot.database, async (db) => {
      const found = await findCrew(db, crewKeyOf(on.platform.world.guild(undefined).id))
      const store = crewStore(db, found?.id ?? 0)
      const [site] = await store.sites.list()
      await store.sites.update(site?.id ?? 0, {
        address: `5 Invented Row, Noplace, ${state} 27000`,
        details: { ...site?.details, customer: 'Demo Customer' } as never,
      })
    })
    const look = await fillForms(on.platform, await begin(on))
    const kept = await press(on.platform, look, 'Yes, record it').message()
    expect(textOf(kept)).toContain('Complete.')

    const paper = async (format: string) => {
      const options = { for: 'inspector', format }
      const { files } = await on.platform
        .slash({ name: 'record export', user: 'demo.lead', channel: 'field', options })
        .edit()
      return Buffer.from(files[0]?.bytes ?? [])
    }
    const table: Record<string, string>[] = parse(await paper('csv'), { bom: true, columns: true })
    const { record } = await write(on.bot.database, async (db) => {
      const found = await findCrew(db, crewKeyOf(on.platform.world.guild(undefined).id))
      const read = await readRecord(crewStore(db, found?.id ?? 0), 1)
      if (read === undefined || !isSound(read)) throw new Error('The record is gone')
      return read.current
    })
    const [used] = recorded(record.products) ?? []
    expect(table).toMatchObject([
      {
        record: 'R1',
        complete: 'yes',
        standing: 'standing',
        date: recorded(record.date),
        product: used?.name,
        registration: String(used?.registration),
        treated_area: recorded(record.treatedArea)?.value,
        customer: recorded(record.customerName),
        chain_link: '1',
      },
    ])
    expect(firstPageOf(await paper('pdf')).byteLength).toBeGreaterThan(2000)
    on.platform.assertClean()
  })
})
