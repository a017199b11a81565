import { expect, test, vi } from 'vitest'
import { verifyChain } from '#src/record/chain.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { buttonsOf, textOf } from '#tests/messengers/discord/seen.ts'
import { expectQuiet, type OnDiscord, startCrew } from './crew.ts'
import { fillForms, type Message, press, pressOn, submit } from './pressing.ts'
import { HAND_CAN, SITE } from './seed.ts'

const crew = { user: 'demo.crew', channel: 'field' }
const HERE = { site: SITE, area: 'front' }
const DAY_MS = 86_400_000
const MIX = {
  product: 'Tarnbrask 75 WDG',
  rate: '0.087 oz wt/1000 ft2',
  ground: '600 ft2',
  sprayer: HAND_CAN,
  weed: 'yellow nutsedge',
  ...HERE,
}
/** What is seen of the plant before there is a head, and after. */
const SEDGE = 'group=sedge; stem_section=triangular; leaf_arrangement=3-ranked'
const HEAD = 'seedhead=umbel-spikes; seedhead_color=straw; underground=tubers-single'
/** What the person who fills in the log has drawn from the can, and the strip that it covered. */
const STRIP = { mix_drawn: '0.6 gal', treated_area: '600 ft2' }

/** Goes on so many days, and waits for the direct message that comes. */
async function wait(on: OnDiscord, days: number): Promise<Message> {
  const before = on.platform.directMessages('demo.crew').length
  on.platform.clock.advance(days * DAY_MS)
  return vi.waitFor(
    () => {
      const messages = on.platform.directMessages('demo.crew')
      expect(messages.length).toBe(before + 1)
      return messages.at(-1) as Message
    },
    { timeout: 30_000, interval: 50 },
  )
}

/** From a mix on the screen to its record: poured, logged, on a strip of the lawn. */
async function pourAndLog({ platform }: OnDiscord, mixed: Message) {
  const poured = await press(platform, mixed, `Poured into ${HAND_CAN}`).message()
  const log = buttonsOf(poured).find(({ label }) => label.startsWith('Log mix'))?.label ?? ''
  const form = await pressOn(platform, poured, log, 'Washed, all went well', 'A strip or a part')
  const look = await fillForms(platform, form, STRIP)
  return press(platform, look, 'Yes, record it').message()
}

/** One tap on the reminder opens the form; two numbers; one tap sends it. */
const rate = ({ platform }: OnDiscord, message: Message, control: string) =>
  submit(platform, message, { 't.control': control, 't.untreated': '0' }, 'Rate it')

/** The can is emptied, rinsed and clean again. */
const clean = ({ platform }: OnDiscord) =>
  platform.slash({ name: 'sprayer cleaned', ...crew, options: { sprayer: HAND_CAN } }).message()

eachEngine('a field season on Discord', (place) => {
  test('from a hold at the key to the year used up, and the papers of it', async () => {
    const on = await startCrew(place)
    const { platform } = on

    // A sedge without a head: nothing is sprayed, and a look is planned.
    const asked = await platform
      .slash({ name: 'key', ...crew, options: { ...HERE, observed: SEDGE } })
      .message()
    const held = await pressOn(platform, asked, 'Stop, flag it')
    expect(textOf(held)).toContain("Not sure. Don't spray.")
    const planned = await pressOn(platform, held, 'Wait for seed head', '7 days')
    expect(textOf(planned)).toContain('You will be asked again on Mon, May 11, 2026')

    // A week later, after a restart, the bot asks; the head is there, and the plant has its name.
    await on.restart()
    const again = await wait(on, 7)
    expect(textOf(again)).toContain('Time to look again: is there a seed head now?')
    const head = await press(platform, again, 'Yes, go on').message()
    const named = await submit(platform, head, { 't.observed': HEAD }, 'Type it, add a photo')
    expect(textOf(named)).toContain('Yellow nutsedge')

    // The book's product for it leads to the mix; the strip and a smaller rate are typed as a mix of their own.
    const products = await pressOn(platform, named, 'Products for it here')
    const toMix = await press(platform, products, 'Mix Tarnbrask 75 WDG').modal()
    expect(JSON.stringify(toMix)).toContain('How much mix?')
    const mixed = await platform.slash({ name: 'mix', ...crew, options: MIX }).message()
    expect(textOf(mixed)).toContain('Covers 600 ft²')
    const logged = await pourAndLog(on, mixed)
    expect(textOf(logged)).toContain('R1 is recorded')

    // Plots from the log with one press: one treated, one untreated.
    const plots = await press(platform, logged, 'Mark plots to come back to').message()
    const one = await submit(platform, plots, {
      't.flag': '1',
      't.where': 'by the drive',
      't.cover': '40',
    })
    expect(textOf(one)).toContain('Is there an untreated spot?')
    const untreated = await press(platform, one, 'Mark an untreated spot').message()
    const marked = await submit(platform, untreated, { 't.flag': 'U', 't.cover': '40' })
    expect(textOf(marked)).toContain('First look: Mon, May 25, 2026')

    // Visits through four weeks, asked for by messages: too early; then at rest on the day the label's 28 days are over.
    const early = await rate(on, await wait(on, 14), '48')
    expect(textOf(early)).toContain('48 % control: wait until Mon, Jun 8, 2026')
    const rested = await rate(on, await wait(on, 14), '52')
    expect(textOf(rested)).toContain('52 % control: second treatment allowed from Mon, Jun 8, 2026')

    // The second application, from one press, at what the label has left: the year is then used up.
    await clean(on)
    const more = await press(platform, rested, 'Mix it once more').message()
    expect(textOf(more)).toContain('Covers 600 ft²')
    const second = await pourAndLog(on, more)
    expect(textOf(second)).toContain('R2 is recorded')
    const same = await pressOn(platform, second, 'Mark plots to come back to', 'Same plots as R1')
    expect(textOf(same)).toContain('One plot marked')
    await rate(on, await wait(on, 14), '40')
    await rate(on, await wait(on, 14), '70')
    const last = await rate(on, await wait(on, 14), '72')
    expect(textOf(last)).toContain('72 % control: no second treatment')
    expect(textOf(last)).toContain('No more than 0.2 oz per 1,000 sq ft')
    expect(buttonsOf(last).map(({ label }) => label)).not.toContain('Mix it once more')

    // Typed as a mix, it is refused with the same line.
    await clean(on)
    const third = await platform
      .slash({ name: 'mix', ...crew, options: { ...MIX, rate: '0.113 oz wt/1000 ft2', spots: 'same' } })
      .message()
    expect(textOf(third)).toContain('No more than 0.2 oz per 1,000 sq ft')
    expect(buttonsOf(third).some(({ label }) => label.startsWith('Poured'))).toBe(false)

    // Papers: the whole history, one page of it, and the records for an inspector; the chain holds.
    const history = await press(platform, last, 'History').message()
    expect(textOf(history)).toContain('day 42: 72 % control')
    const paper = await press(platform, history, 'One page for the client (PDF)').edit()
    expect(paper.files.map(({ contentType }) => contentType)).toEqual(['application/pdf'])
    const records = await platform
      .slash({ name: 'record export', user: 'demo.lead', channel: 'office', options: { for: 'inspector' } })
      .edit()
    expect(textOf(records.message)).toContain('2 records for an inspector')
    expect(records.files.map(({ contentType }) => contentType)).toEqual(['application/pdf'])
    const links = await on.look((store) => store.records.pageLinks(0, 10))
    expect(links).toHaveLength(2)
    expect(verifyChain(links)).toEqual([])
    platform.assertClean()
    expectQuiet(on)
  })
})
