import { type Browser, type BrowserContext, chromium, type Locator, type Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect } from 'vitest'
import { chromiumPath } from '#tests/helpers/chromium.ts'
import { type OpenPage, type OpenPageParts, openPage } from './open-page.ts'

export const PHONE = { width: 360, height: 740 }
export const SMALL_PHONE = { width: 320, height: 640 }
export const DESK = { width: 1280, height: 800 }

export interface WindowParts {
  readonly size?: { readonly width: number; readonly height: number }
  readonly isDark?: boolean
  /** The tour opens on a first visit; most tests come later. */
  readonly hasTour?: boolean
}

/** One window of the practice page, and what its person does in it. */
export interface RoomWindow {
  readonly page: Page
  readonly newest: Locator
  /** Types on the line and sends it; resolves when one more answer stands on the sheet. */
  type(line: string): Promise<void>
  /** Does something and waits until one more answer stands on the sheet. */
  awaits(what: () => Promise<unknown>): Promise<void>
  slips(): Promise<number>
}

export interface Stage {
  readonly room: OpenPage
  window(as: string, parts?: WindowParts): Promise<RoomWindow>
  /** Addresses that any window has asked for. */
  readonly asked: readonly string[]
  /** What browsers complained of: errors, and breaches of the page's own policy. */
  readonly complaints: readonly string[]
}

/** Runs a suite in one real Chromium on one practice page; left out, and said so before the run, where there is none. */
export function inChromium(name: string, suite: (stage: Stage) => void, parts: OpenPageParts = {}): void {
  const executablePath = chromiumPath()
  describe.skipIf(executablePath === null)(name, () => {
    let browser: Browser
    let room: OpenPage
    const asked: string[] = []
    const complaints: string[] = []
    const contexts: BrowserContext[] = []
    beforeAll(async () => {
      // As root Chromium has no sandbox; nothing but the page on this machine is opened in it.
      const args = [
        '--no-sandbox',
        '--disable-background-networking',
        '--disable-component-update',
        '--no-first-run',
      ]
      browser = await chromium.launch({ executablePath: executablePath ?? '', args })
      room = await openPage(parts)
    })
    afterEach(async () => {
      await Promise.all(contexts.splice(0).map((context) => context.close()))
      expect(complaints.splice(0)).toEqual([])
    })
    afterAll(async () => {
      await browser?.close()
      await room?.close()
    })
    suite({
      get room() {
        return room
      },
      asked,
      complaints,
      async window(as, { size = PHONE, isDark = false, hasTour = false } = {}) {
        const context = await browser.newContext({
          viewport: size,
          colorScheme: isDark ? 'dark' : 'light',
          reducedMotion: 'reduce',
        })
        contexts.push(context)
        context.setDefaultTimeout(15_000)
        context.on('request', (request) => asked.push(request.url()))
        context.on('weberror', (error) => complaints.push(String(error.error())))
        context.on('console', (message) => {
          if (
            message.type() === 'error' &&
            !/ERR_CONNECTION_REFUSED|ERR_INCOMPLETE|ERR_CONNECTION_RESET/.test(message.text())
          )
            complaints.push(message.text())
        })
        const page = await context.newPage()
        if (!hasTour)
          await page.addInitScript(() => {
            localStorage.setItem('swardhand-tour', 'done')
          })
        await page.goto(`${room.address}/?as=${as}`)
        await page.locator('#main[data-live]').waitFor()
        return roomWindow(page)
      },
    })
  })
}

function roomWindow(page: Page): RoomWindow {
  const sheet = page.locator('#sheet > .slip')
  const awaits = async (what: () => Promise<unknown>) => {
    const before = await sheet.count()
    await what()
    await expect.poll(() => sheet.count(), { timeout: 15_000 }).toBeGreaterThan(before)
  }
  return {
    page,
    newest: sheet.last(),
    awaits,
    slips: () => sheet.count(),
    type: (line) =>
      awaits(async () => {
        await page.locator('#line').fill(line)
        await page.locator('#line').press('Enter')
      }),
  }
}

export const MIX =
  '/mix product:"Tarnbrask 75 WDG" tank:1/2 sprayer:"Hand can" site:"Wrennoch Chapel" area:"Chapel green"'
