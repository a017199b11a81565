import { type Param, say } from '#src/conversation/text.ts'
import { speak } from '#src/words/speak.ts'
import { buttonsOf, textOf } from '#tests/messengers/discord/seen.ts'
import { type OnDiscord, soon } from './crew.ts'
import { fillForms, type Message, pressOn, submit } from './pressing.ts'
import { HAND_CAN, SITE } from './seed.ts'

const crew = { user: 'demo.crew', channel: 'field' }
const MIX = {
  product: 'Tarnbrask 75 WDG',
  rate: '0.087 oz wt/1000 ft2',
  sprayer: HAND_CAN,
  tank: '1/2',
  site: SITE,
  area: 'front',
  weed: 'yellow nutsedge',
}
const SEEN =
  'group=sedge; stem_section=triangular; underground=tubers-single; seedhead=umbel-spikes; color=yellow-green'
const DAY_MS = 86_400_000

/**
 * One job on Discord in this language: a weed named, a mix poured, logged and recorded, plots marked, three looks, and
 * the mix once more. Returns what stood on the screen at each of these, in order.
 */
export async function workWholeJob(on: OnDiscord, locale: string): Promise<readonly string[]> {
  const { platform } = on
  const word = (id: string, given: Readonly<Record<string, Param>> = {}) =>
    speak(on.bot.words, say(id, given), { locale, escape: (typed) => typed })
  const fillIn = word('common.fill-in')
  const seen: string[] = []
  const see = (message: Message) => {
    seen.push(textOf(message))
    return message
  }

  see(
    await platform
      .slash({ name: 'key', ...crew, options: { site: SITE, area: 'front', observed: SEEN } })
      .message(),
  )
  const mixed = see(await platform.slash({ name: 'mix', ...crew, options: MIX }).message())
  const form = await pressOn(
    platform,
    mixed,
    word('mixing.poured', { sprayer: HAND_CAN }),
    word('mixing.log-it', { number: 1 }),
    word('logging.hands-all-well'),
    word('logging.strip'),
  )
  const check = see(await fillForms(platform, form, { treated_area: '1000 ft2' }, fillIn))
  see(await pressOn(platform, check, word('logging.keep')))

  const plots = platform.slash({ name: 'recheck plots', ...crew, options: { record: 'R1' } })
  const treated = { 't.flag': '1', 't.where': 'by the drive', 't.cover': '40' }
  const one = await submit(platform, await plots.message(), treated, fillIn)
  const untreated = await pressOn(platform, one, word('visits.mark-untreated-button'))
  see(await submit(platform, untreated, { 't.flag': 'U', 't.cover': '40' }, fillIn))

  let rated: Message | null = null
  for (const control of ['25', '50', '52']) {
    const asked = await nextLook(on, word('visits.rate'))
    const fields = { 't.control': control, 't.untreated': '0' }
    rated = see(await submit(platform, asked, fields, word('visits.rate')))
  }
  if (rated !== null) see(await pressOn(platform, rated, word('visits.mix-again')))
  return seen
}

/** Goes on two weeks, and waits for the direct message with which a look is asked for. */
async function nextLook({ platform }: OnDiscord, rate: string): Promise<Message> {
  const looks = () =>
    platform.directMessages('demo.crew').filter((one) => buttonsOf(one).some(({ label }) => label === rate))
  const before = looks().length
  platform.clock.advance(14 * DAY_MS)
  let found: Message | undefined
  await soon(() => {
    found = looks()[before]
    if (found === undefined) throw new Error('Nobody has asked for a look yet')
  })
  if (found === undefined) throw new Error('Nobody has asked for a look')
  return found
}
