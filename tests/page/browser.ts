import type { Browser, BrowserContext } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect } from 'vitest'
import { chromiumPath } from '#tests/helpers/chromium.ts'
import { type OpenPage, type OpenPageParts, openPage } from './open-page.ts'
import { launchChromium, openWindow, type RoomWindow, type WindowParts } from './window.ts'

export interface Stage {
  readonly room: OpenPage
  window(as: string, parts?: WindowParts): Promise<RoomWindow>
  /** Addresses that any window has asked for. */
  readonly asked: readonly string[]
  /** What browsers complained of: errors, and breaches of the page's own policy. */
  readonly complaints: readonly string[]
}

/** Runs a suite in one real Chromium on one practice page; left out, and said so before the run, where there is none. */
export function inChromium(
  name: string,
  suite: (stage: Stage) => void,
  parts: OpenPageParts & { readonly letterPx?: number } = {},
): void {
  const executablePath = chromiumPath()
  describe.skipIf(executablePath === null)(name, () => {
    let browser: Browser
    let room: OpenPage
    const asked: string[] = []
    const complaints: string[] = []
    const contexts: BrowserContext[] = []
    beforeAll(async () => {
      browser = await launchChromium(executablePath ?? '', parts.letterPx)
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
      window: (as, parts) =>
        openWindow(browser, `${room.address}/?as=${as}`, parts, (context) => {
          contexts.push(context)
          context.on('request', (request) => asked.push(request.url()))
          context.on('weberror', (error) => complaints.push(String(error.error())))
          context.on('console', (message) => {
            if (
              message.type() === 'error' &&
              !/ERR_CONNECTION_REFUSED|ERR_INCOMPLETE|ERR_CONNECTION_RESET/.test(message.text())
            )
              complaints.push(message.text())
          })
        }),
    })
  })
}
