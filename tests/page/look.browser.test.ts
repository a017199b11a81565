import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { bundleAssets } from '#src/messengers/room/page/assets.ts'
import { inChromium } from './browser.ts'
import { lookAround } from './look-around.ts'
import { MIX } from './whole-job.ts'
import { DESK, PHONE, SMALL_PHONE } from './window.ts'

interface Shift {
  readonly value: number
  readonly sources: readonly {
    readonly node: Node | null
    readonly previousRect: DOMRectReadOnly
    readonly currentRect: DOMRectReadOnly
  }[]
}

inChromium('the look of the practice page', (stage) => {
  const { window } = stage
  const sizes = [
    { size: SMALL_PHONE, as: 'teo', isDark: true },
    { size: PHONE, as: 'bex', isDark: false },
    { size: DESK, as: 'odalys', isDark: true },
  ]

  test.each(sizes)(
    'nothing is too wide, too small or unreadable at $size.width × $size.height, and axe finds nothing serious',
    async ({ size, as, isDark }) => {
      expect(await lookAround(await window(as, { size, isDark, hasTour: true }))).toEqual([])
    },
  )

  test.each([PHONE, SMALL_PHONE])(
    'amount, tool, mark and order of a mix stand on one screen at $width × $height with nothing to press',
    async (size) => {
      const { newest, type } = await window('bex', { size })
      await type(MIX)
      for (const text of ['3.2 g', 'Measure with: pocket scale', '1 gal mark', 'Half the water']) {
        // The sheet is scrolled to its newest line a moment after that line is there.
        const place = newest.getByText(text).first()
        const isOnScreen = async () => {
          const box = await place.boundingBox()
          return box !== null && box.y >= 0 && box.y + box.height <= size.height - 60
        }
        await expect.poll(isOnScreen, { message: text, timeout: 5000 }).toBe(true)
      }
    },
  )

  test('nothing moves by itself: layout shift is 0, in one’s own window and in another’s', async () => {
    const bex = await window('bex')
    const nila = await window('nila')
    const shiftOf = (page: Page) =>
      page.evaluate(
        () =>
          new Promise<unknown[]>((done) => {
            const moved: unknown[] = []
            new PerformanceObserver((list) => {
              for (const entry of list.getEntries() as unknown as Shift[]) {
                const nodes = entry.sources.map(({ node, previousRect: was, currentRect: is }) => [
                  (node as Element | null)?.parentElement?.outerHTML.slice(0, 200),
                  was.top,
                  is.top,
                  was.height,
                  is.height,
                ])
                moved.push(entry.value, nodes)
              }
            }).observe({ type: 'layout-shift', buffered: true })
            setTimeout(() => done(moved), 300)
          }),
      )
    await bex.type(MIX)
    await bex.type('/key site:"Wrennoch Chapel"')
    await bex.type('/site show site:"Wrennoch Chapel"')
    await expect
      .poll(() =>
        bex.page.locator('img').evaluateAll((all) => all.every((one) => (one as HTMLImageElement).complete)),
      )
      .toBe(true)
    await nila.page.reload()
    await expect.poll(() => nila.slips()).toBeGreaterThan(1)
    expect([await shiftOf(bex.page), await shiftOf(nila.page)]).toEqual([[], []])
  })

  test('everything is done by the keyboard alone', async () => {
    const { page, newest, awaits } = await window('bex')
    const press = (...keys: string[]) =>
      keys.reduce((so, key) => so.then(() => page.keyboard.press(key)), Promise.resolve())
    const focused = () =>
      page.evaluate(() => document.activeElement?.id || document.activeElement?.textContent)
    await page.locator('.you').focus()
    await press('Tab')
    expect(await focused()).toBe('clock')
    // The way past a long sheet, and the shorter one.
    await press('Shift+Tab', 'Shift+Tab')
    expect(await page.locator('.skip').evaluate((skip) => skip === document.activeElement)).toBe(true)
    await press('Enter', 'Tab')
    expect(await focused()).toBe('Send')
    await page.keyboard.type('/ra')
    await page.locator('#offers [role=option]').first().waitFor()
    await press('Enter')
    await page.getByRole('dialog', { name: '/rate' }).waitFor()
    await page.keyboard.type('3 pt/acre')
    await press('Tab')
    await page.keyboard.type('fl oz/1000 ft2')
    await awaits(() => press('Enter'))
    expect(await newest.locator('.figure').textContent()).toMatch(/^1\.102/)
    await expect.poll(() => page.getByRole('dialog').count()).toBe(0)
    // Where nothing is being typed, a slash begins a command.
    await page.keyboard.type('/site show site:"wren')
    await page.getByRole('option', { name: 'Wrennoch Chapel' }).waitFor()
    await press('ArrowDown', 'Enter')
    await awaits(() => press('Enter'))
    expect(await newest.locator('h2').textContent()).toContain('Wrennoch Chapel')
    await page.keyboard.type('/key site:"Wrennoch Chapel"')
    await press('Escape')
    await awaits(() => press('Enter'))
    await newest.locator('.choices button').first().focus()
    await awaits(() => press('Enter'))
    // The focus is always somewhere that can be seen.
    expect(await page.evaluate(() => document.activeElement !== document.body)).toBe(true)
    await page.locator('#clock').focus()
    await press('Enter')
    await page.getByRole('dialog').waitFor()
    await press('Escape')
    expect(await focused()).toBe('clock')
  })

  test('the script is far below 150 kB, and no request leaves this machine', async () => {
    const { script, style } = await bundleAssets()
    expect(Buffer.byteLength(script)).toBeLessThan(60_000)
    expect(Buffer.byteLength(style)).toBeLessThan(30_000)
    const { page, type } = await window('bex')
    await type('/site show site:"Wrennoch Chapel"')
    await expect.poll(() => page.locator('img').count()).toBeGreaterThan(0)
    const hosts = new Set(stage.asked.map((address) => new URL(address).host))
    expect([...hosts]).toEqual([new URL(stage.room.address).host])
  })
})

/** Twice the usual 16 px, which is as far as text has to grow without loss (WCAG 2.2, 1.4.4 Resize Text). */
inChromium(
  'the practice page with letters twice as large',
  ({ window }) => {
    test.each([PHONE, SMALL_PHONE, DESK])(
      'nothing is cut, broken inside a name, or squeezed out at $width × $height',
      async (size) => {
        const opened = await window('odalys', { size, hasTour: true })
        const { page } = opened
        const rowsOf = (place: string) =>
          page.locator(place).evaluate((one) => {
            const lines = document.createRange()
            lines.selectNodeContents(one)
            return new Set([...lines.getClientRects()].map(({ top }) => top)).size
          })
        expect(await rowsOf('.you b')).toBeLessThanOrEqual(2)
        expect(await lookAround(opened)).toEqual([])
        await page.goto(new URL('/?as=odalys', page.url()).href)
        await page.locator('#sheet > .slip').first().waitFor()
        const heightOf = (place: string) => page.locator(place).evaluate((one) => one.clientHeight)
        expect((await heightOf('main')) / size.height).toBeGreaterThan(1 / 3)
        // Eight of its letters fit on the line.
        expect(await page.locator('#line').evaluate((one) => one.clientWidth)).toBeGreaterThan(8 * 17)
      },
    )
  },
  { letterPx: 32 },
)
