import { expect, test } from 'vitest'
import { commands } from '#commands/index.ts'
import { addDays } from '#src/label/day.ts'
import { tourFor } from '#src/messengers/room/page/tour.ts'
import { fillForms, press } from '#tests/commands/fill-log.ts'
import { openRoom } from '#tests/commands/open-room.ts'

const MONDAY = '2026-05-04'
const DAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday']
const WRITTEN = new Set(commands.map(({ name }) => name))

/** What the buttons of the tour type, in their order. */
const linesOn = (today: string) =>
  tourFor({ has: (name) => WRITTEN.has(name) }, ({ say }) => say, today).map(({ does }) => {
    if (does.kind === 'days') return `+ ${does.days} days`
    const options = Object.entries(does.options).map(([name, value]) => `${name}:"${value}"`)
    return [`/${does.command}`, ...options].join(' ')
  })

test.each(DAYS.map((day, at) => ({ day, today: addDays(MONDAY, at) })))(
  'begun on a $day, the tour names a weed, mixes, logs it, and its wait brings the first look',
  async ({ today }) => {
    const room = await openRoom(`${today}T09:00:00-04:00`)
    const [key = '', mix = '', log = '', wait = '', now = ''] = linesOn(today)
    const bex = room.as('bex')

    expect((await bex(key)).title).toBe(
      'Weed: dallisgrass or vaseygrass (Paspalum dilatatum or Paspalum urvillei)',
    )
    await press(bex, await press(bex, await bex(mix), 'Highest'), 'Poured')
    let said = await bex(log)
    for (const label of ['Mix 1', 'Washed, all went well', 'Spots', 'Other spots'])
      said = await press(bex, said, label)
    const check = await fillForms(bex, said, {
      product: '',
      amount: '',
      rate: '',
      total_mix: '',
      recipe: '',
      mix_drawn: '1 gal',
      treated_area: '1000 ft2',
      targets: 'dallisgrass',
      place: '',
      site: '',
    })
    const kept = await press(bex, check, 'Yes, record it')
    await bex(`/recheck plots record:${kept.facts.record}`, '= flag:1 where:"by second base" cover:40')

    const sent = await room.wait(wait)
    expect(sent.map(({ title }) => title).join('\n')).toContain('Look: Fallowquay Ballpark, Outfield')
    expect((await bex(now)).screen.join('\n')).toContain('Outfield')
  },
)
