import { expect, test, vi } from 'vitest'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { write } from '#src/store/transaction.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { buttonIn, buttonsOf, textOf } from '#tests/messengers/discord/seen.ts'
import { keepApplication } from '../visits/keep-application.ts'
import { expectQuiet, type OnDiscord, startCrew } from './crew.ts'
import { HAND_CAN, SITE } from './seed.ts'

const crew = { user: 'demo.crew', channel: 'field' }
const DAY_MS = 86_400_000

type Message = Awaited<ReturnType<ReturnType<OnDiscord['platform']['slash']>['message']>>

/** Nutsedge on a strip of the front lawn, as a finished log leaves it. */
const treat = (on: OnDiscord, day: string, rate: string) =>
  write(on.bot.database, async (db) => {
    const found = await findCrew(db, crewKeyOf(on.platform.world.guild(undefined).id))
    return keepApplication(crewStore(db, found?.id ?? 0), {
      site: SITE,
      area: 'front',
      on: day,
      rate,
      person: on.platform.world.user('demo.crew').id,
      parts: { sprayer: HAND_CAN },
    })
  })

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
    { timeout: 15_000, interval: 50 },
  )
}

/** One tap on the reminder opens the form; numbers; one tap sends it. */
async function rate({ platform }: OnDiscord, message: Message, fields: Record<string, string | string[]>) {
  const opened = platform.press({ user: 'demo.crew', message, customId: buttonIn(message, 'Rate it') })
  await opened.modal()
  return platform.submitModal({ from: opened, fields: fields as never }).message()
}

const press = ({ platform }: OnDiscord, message: Message, label: string) =>
  platform.press({ user: 'demo.crew', message, customId: buttonIn(message, label) })

eachEngine('coming back to a treated strip on Discord', (place) => {
  test('a season: plots, reminders by themselves, ratings, wait, allowed, mixed again, and the year is used up', async () => {
    const on = await startCrew(place)
    const { platform } = on
    await treat(on, '2026-05-04', '0.087')

    // Plots: one treated, one untreated.
    const asked = await platform
      .slash({ name: 'recheck plots', ...crew, options: { record: 'R1' } })
      .message()
    const form = press(on, asked, 'Fill it in')
    await form.modal()
    const one = await platform
      .submitModal({ from: form, fields: { 't.flag': '1', 't.where': 'by the drive', 't.cover': '40' } })
      .message()
    expect(textOf(one)).toContain('Is there an untreated spot?')
    const untreated = await press(on, one, 'Mark an untreated spot').message()
    const spot = press(on, untreated, 'Fill it in')
    await spot.modal()
    const marked = await platform
      .submitModal({ from: spot, fields: { 't.flag': 'U', 't.cover': '40' } })
      .message()
    expect(textOf(marked)).toContain('First look: Mon, May 18, 2026')

    // Two weeks later, after a restart: the first look decides nothing.
    await on.restart()
    const first = await wait(on, 14)
    expect(textOf(first)).toContain(`Look: ${SITE}, front, R1`)
    const early = await rate(on, first, { 't.control': '25', 't.untreated': '0' })
    expect(textOf(early)).toContain('25 % control: wait until Mon, Jun 1, 2026')

    // Still working; then at rest.
    const moving = await rate(on, await wait(on, 14), { 't.control': '50', 't.untreated': '0' })
    expect(textOf(moving)).toContain('50 % control: wait until Mon, Jun 15, 2026')
    const rested = await rate(on, await wait(on, 14), { 't.control': '52', 't.untreated': '0' })
    expect(textOf(rested)).toContain('52 % control: second treatment allowed from Mon, Jun 15, 2026')

    // One press to the mix, with all of it filled in.
    const mixed = await press(on, rested, 'Mix it once more').message()
    expect(textOf(mixed)).toContain('Covers 600 ft² at 1 gal/1000 ft².')

    // The second application, on the same plots, at what the label allows: the year is then used up.
    await treat(on, '2026-06-15', '0.113')
    const again = await platform
      .slash({ name: 'recheck plots', ...crew, options: { record: 'R2' } })
      .message()
    const same = await press(on, again, 'Same plots as R1').message()
    expect(textOf(same)).toContain('One plot marked')
    await rate(on, await wait(on, 14), { 't.control': '40', 't.untreated': '0' })
    await rate(on, await wait(on, 14), { 't.control': '70', 't.untreated': '0' })
    const last = await rate(on, await wait(on, 14), { 't.control': '72', 't.untreated': '0' })
    expect(textOf(last)).toContain('72 % control: no second treatment')
    expect(textOf(last)).toContain('No more than 0.2 oz per 1,000 sq ft')
    expect(buttonsOf(last).map(({ label }) => label)).not.toContain('Mix it once more')

    // Papers: the whole history, and one page of it.
    const history = await press(on, last, 'History').message()
    expect(textOf(history)).toContain('day 42: 72 % control')
    const paper = press(on, history, 'One page for the client (PDF)')
    const { files } = await paper.edit()
    expect(files.map(({ contentType }) => contentType)).toEqual(['application/pdf'])
    expectQuiet(on)
  })
})
