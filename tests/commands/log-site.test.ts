import { expect, test } from 'vitest'
import { readSound } from '#src/records/read-record.ts'
import { AreaDetails } from '#src/store/sites.ts'
import { fillForms, press } from './fill-log.ts'
import { openRoom } from './open-room.ts'

test('grass that the site book knows and the form shows is no mistake when nobody touches it', async () => {
  const room = await openRoom()
  await room.store(async (store) => {
    const [site] = (await store.sites.list()).filter(({ name }) => name === 'Plimmet Street House')
    const details = AreaDetails.parse({ turfs: ['tall-fescue'] })
    const area = { siteId: site?.id ?? 0, name: 'Invented corner', squareFeet: '2000', details }
    await store.sites.createArea(area, 0)
  })
  const bex = room.as('bex')
  let said = await bex(
    '/log product:"Tarnbrask 75 WDG" amount:"0.1 oz" rate:"0.113 oz/1000 ft2" site:"Plimmet Street House" area:"Invented corner" coverage:strip spots:other ground:"885 ft2" start:7:30 weed:"yellow nutsedge" hands_washed:yes unusual:no sprayer:"Hand can"',
  )
  for (let at = 0; at < 5 && !said.fields.includes('site'); at += 1) said = await bex('= ')
  const shown = said.shown.answered.reply.form?.fields.find(({ name }) => name === 'site')?.value
  expect(shown).toBe('Tall fescue')
  const look = await fillForms(bex, said, { site: shown ?? '' })
  expect(look.title).toBe('Plimmet Street House, Invented corner: is this right?')
  await press(bex, look, 'Yes, record it')
  const kept = await room.store((store) => readSound(store, 1))
  expect(kept?.original).toMatchObject({ turfs: ['Tall fescue'], use: { notRecorded: true } })
})
