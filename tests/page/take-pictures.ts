/** Takes the pictures of the practice page that the guides show, anew: `npm run pictures`. It needs Chromium alone. */
import { mkdirSync } from 'node:fs'
import path from 'node:path'
import type { Locator } from 'playwright-core'
import sharp from 'sharp'
import { projectRoot } from '#src/project.ts'
import { chromiumLeftOut, chromiumPath } from '#tests/helpers/chromium.ts'
import { openPage } from './open-page.ts'
import { MIX, type State, workWholeJob } from './whole-job.ts'
import { DESK, launchChromium, openWindow, PHONE, type RoomWindow, type WindowParts } from './window.ts'

const folder = path.join(projectRoot(), 'docs', 'pictures')
/** Phones have finer screens than pages have pixels. */
const SCALE = { phone: 2, desk: 1 }

/** States of the whole job that are kept, by the name of their picture. */
const OF_THE_JOB: Partial<Record<State, string>> = {
  key: 'key',
  weed: 'weed',
  'log-form': 'log-form',
  'log-check': 'log-check',
  recorded: 'recorded',
  reminder: 'reminder',
  wait: 'wait',
  allowed: 'allowed',
}

async function take({ page }: RoomWindow, name: string, slip?: Locator): Promise<void> {
  await slip?.evaluate((one) => one.scrollIntoView({ block: 'start' }))
  await page.waitForFunction(() => [...document.images].every((one) => one.complete))
  const png = await page.screenshot({ animations: 'disabled', caret: 'hide' })
  const file = path.join(folder, `${name}.png`)
  const { size } = await sharp(png).png({ palette: true, colours: 16, effort: 10 }).toFile(file)
  process.stdout.write(`${path.relative(projectRoot(), file)}  ${Math.ceil(size / 1000)} kB\n`)
}

const missing = chromiumLeftOut()
if (missing !== null) {
  process.stderr.write(`${missing}\n`)
  process.exit(1)
}
mkdirSync(folder, { recursive: true })
const browser = await launchChromium(chromiumPath() ?? '')
try {
  await onThePhone()
  await onTheDesk()
} finally {
  await browser.close()
}

/** By day, in English. */
async function onThePhone(): Promise<void> {
  const room = await openPage()
  const open = (as: string | null, parts: WindowParts = {}) =>
    openWindow(browser, as === null ? room.address : `${room.address}/?as=${as}`, {
      size: PHONE,
      scale: SCALE.phone,
      ...parts,
    })
  try {
    await take(await open(null), 'who')
    await take(await open('bex', { hasTour: true }), 'tour')
    const teo = await open('teo', { isDark: true })
    await teo.type(MIX)
    await take(teo, 'mix-es-dark', teo.newest)
    await teo.type('/key site:"Wrennoch Chapel"')
    await take(teo, 'key-es-dark', teo.newest)
    const window = await open('bex')
    await takeForms(window)
    await window.type(MIX)
    await take(window, 'mix', window.newest)
    await window.type('/emergency')
    await take(window, 'emergency', window.newest)
    const { words } = room.bot
    await workWholeJob({
      window,
      words,
      locale: 'en',
      see: async (state, slip) => {
        const name = OF_THE_JOB[state]
        if (name !== undefined) await take(window, name, slip)
      },
    })
  } finally {
    await room.close()
  }
}

async function takeForms(window: RoomWindow): Promise<void> {
  const { page, awaits } = window
  await page.locator('#commands').click()
  await take(window, 'commands')
  await page.getByRole('button', { name: /^\/rate/ }).click()
  const form = page.getByRole('dialog', { name: '/rate' })
  await form.locator('[name=amount]').fill('3 buckets')
  await form.locator('[name=to]').fill('fl oz/1000 ft2')
  await awaits(() => form.locator('button[type=submit]').click())
  await take(window, 'form-error')
  await page.keyboard.press('Escape')
}

/** A lead at a computer, by day and in the dark. */
async function onTheDesk(): Promise<void> {
  for (const isDark of [false, true]) {
    const room = await openPage()
    try {
      const window = await openWindow(browser, `${room.address}/?as=odalys`, {
        size: DESK,
        scale: SCALE.desk,
        isDark,
      })
      await window.type('/label show product:"Tarnbrask 75 WDG"')
      await take(window, isDark ? 'label-desk-dark' : 'label-desk', window.newest)
      await window.type('/site show site:"Wrennoch Chapel"')
      await take(window, isDark ? 'site-desk-dark' : 'site-desk', window.newest)
    } finally {
      await room.close()
    }
  }
}
