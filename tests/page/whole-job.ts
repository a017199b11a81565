import type { Locator } from 'playwright-core'
import { type Param, say } from '#src/conversation/text.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { speak } from '#src/words/speak.ts'
import { careful } from '#tests/commands/fill-log.ts'
import type { RoomWindow } from './window.ts'

const PLACE = 'site:"Wrennoch Chapel" area:"Chapel green"'
export const MIX = `/mix product:"Tarnbrask 75 WDG" tank:1/2 sprayer:"Hand can" ${PLACE}`
const SEEN =
  'group=sedge; stem_section=triangular; underground=tubers-single; seedhead=umbel-spikes; color=yellow-green'

export const STATES = [
  'key',
  'weed',
  'mix',
  'poured',
  'log-form',
  'log-check',
  'recorded',
  'marked',
  'reminder',
  'wait',
  'allowed',
  'mixed-again',
] as const
export type State = (typeof STATES)[number]

export interface Worker {
  readonly window: RoomWindow
  readonly words: Catalogue
  /** The language in which this person reads. */
  readonly locale: string
  /** Called whenever something new stands on the page, with the answer that it is. */
  readonly see: (state: State, slip: Locator) => Promise<void>
}

/** A word of the room as this person reads it. */
const worded =
  ({ words, locale }: Pick<Worker, 'words' | 'locale'>) =>
  (id: string, given: Readonly<Record<string, Param>> = {}) =>
    speak(words, say(id, given), { locale, escape: (typed) => typed })

/**
 * One job from the first look to the second treatment, as one person does it on the page: is it a weed, how much, write
 * it down, mark plots, come back three times, mix once more.
 */
export async function workWholeJob(worker: Worker): Promise<void> {
  const { window } = worker
  const { page, newest, type, awaits } = window
  const word = worded(worker)
  const see = (state: State, slip = newest) => worker.see(state, slip)
  // What is due arrives whenever it is due, so the newest answer may not be the one that asks.
  const sheet = page.locator('#sheet > .slip')
  const button = (name: string) => sheet.getByRole('button', { name, exact: true, disabled: false }).last()
  const press = (name: string) => awaits(() => button(name).click())
  const form = page.locator('#sheet > .slip form:not([data-closed])').last()
  const closed = page.locator('#sheet form[data-closed]')
  const send = async (own: Readonly<Record<string, string>> = {}) => {
    const used = await closed.count()
    await fillIn(form, own)
    await awaits(() => form.locator('button[type=submit]').click())
    await closed.nth(used).waitFor()
  }

  await type(`/key ${PLACE}`)
  await see('key')
  await awaits(() => newest.locator('.choices button').first().click())
  await type(`/key ${PLACE} observed:"${SEEN}" guess:"yellow nutsedge"`)
  await see('weed')

  await type(`${MIX} rate:"0.087 oz wt/1000 ft2"`)
  await see('mix')
  await press(word('mixing.poured', { sprayer: 'Hand can' }))
  await see('poured')

  await press(word('mixing.log-it', { number: 1 }))
  await press(word('logging.hands-all-well'))
  await press(word('logging.strip'))
  await press(word('logging.ground-other'))
  await see('log-form')
  while (!(await button(word('logging.keep')).count())) await send({ treated_area: '1000 ft2' })
  await see('log-check')
  await press(word('logging.keep'))
  const marks = page.getByRole('button', { name: word('logging.mark-plots') })
  await see('recorded', sheet.filter({ has: marks }).last())

  await type('/recheck plots record:R1')
  await send({ where: '35.91320, -78.90120', cover: '40', size: '3 ft x 3 ft' })
  await press(word('visits.mark-untreated-button'))
  await send({ cover: '40' })
  await see('marked')

  for (const [control, state] of [
    ['25', 'wait'],
    ['50', null],
    ['52', 'allowed'],
  ] as const) {
    await page.locator('#clock').click()
    await awaits(async () => {
      await page.locator('dialog input').fill('14')
      await page.getByRole('button', { name: word('page.clock-go') }).click()
    })
    await page.locator('#sheet form:not([data-closed]) [name=control]').last().waitFor()
    if (state === 'wait') await see('reminder', sheet.filter({ has: page.locator('[name=control]') }).last())
    await send({ control, untreated: '0' })
    if (state !== null) await see(state)
  }
  await press(word('visits.mix-again'))
  await see('mixed-again')
}

/** Types into whatever stands empty on a form. */
async function fillIn(form: Locator, own: Readonly<Record<string, string>>): Promise<void> {
  for (const control of await form.locator('.field :is(input[type=text], textarea, select)').all())
    await fill(control, own)
}

async function fill(control: Locator, own: Readonly<Record<string, string>>): Promise<void> {
  const name = (await control.getAttribute('name')) ?? ''
  const value = own[name] ?? careful[name] ?? ''
  if (value === '' || (await control.inputValue()) !== '') return
  const isList = await control.evaluate((one) => one.tagName === 'SELECT')
  if (isList) await control.selectOption(value)
  else await control.fill(value)
}
