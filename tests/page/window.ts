import { type Browser, type BrowserContext, chromium, type Locator, type Page } from 'playwright-core'

export const PHONE = { width: 360, height: 740 }
export const SMALL_PHONE = { width: 320, height: 640 }
export const DESK = { width: 1280, height: 800 }

export interface WindowParts {
  readonly size?: { readonly width: number; readonly height: number }
  readonly isDark?: boolean
  /** The tour opens on a first visit; most windows come later. */
  readonly hasTour?: boolean
  /** Pixels of a picture to one of the window. */
  readonly scale?: number
}

/** One window of the practice page, and what its person does in it. */
export interface RoomWindow {
  readonly page: Page
  readonly newest: Locator
  /** Types on the line and sends it; resolves when one more answer stands on the sheet. */
  type(line: string): Promise<void>
  /** Does something and waits until one more answer stands on the sheet. */
  awaits(what: () => Promise<unknown>): Promise<void>
  /** Presses a button of the newest answer. */
  press(label: string): Promise<void>
  slips(): Promise<number>
}

const WAITS_MS = 15_000

/**
 * As root Chromium has no sandbox; nothing but a page of this machine is opened in it.
 * @param letterPx how large its person has set letters, in pixels
 */
export const launchChromium = (executablePath: string, letterPx = 16): Promise<Browser> =>
  chromium.launch({
    executablePath,
    args: [
      '--no-sandbox',
      '--disable-background-networking',
      '--disable-component-update',
      '--no-first-run',
      `--blink-settings=defaultFontSize=${letterPx}`,
    ],
  })

/** A browser of one's own, in which nobody has been yet. `watch` sees it before anything is loaded. */
export async function openWindow(
  browser: Browser,
  address: string,
  { size = PHONE, isDark = false, hasTour = false, scale = 1 }: WindowParts = {},
  watch: (context: BrowserContext) => void = () => {},
): Promise<RoomWindow> {
  const context = await browser.newContext({
    viewport: size,
    deviceScaleFactor: scale,
    colorScheme: isDark ? 'dark' : 'light',
    reducedMotion: 'reduce',
  })
  context.setDefaultTimeout(WAITS_MS)
  watch(context)
  const page = await context.newPage()
  if (!hasTour)
    await page.addInitScript(() => {
      localStorage.setItem('swardhand-tour', 'done')
    })
  await page.goto(address)
  await page.locator('#main[data-live], .who').first().waitFor()
  return roomWindow(page)
}

function roomWindow(page: Page): RoomWindow {
  const sheet = page.locator('#sheet > .slip')
  const newest = sheet.last()
  const awaits = async (what: () => Promise<unknown>) => {
    const before = await sheet.count()
    await what()
    await sheet.nth(before).waitFor()
  }
  return {
    page,
    newest,
    awaits,
    press: (label) => awaits(() => newest.getByRole('button', { name: label }).first().click()),
    slips: () => sheet.count(),
    type: (line) =>
      awaits(async () => {
        await page.locator('#line').fill(line)
        await page.locator('#line').press('Enter')
      }),
  }
}
