import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/** What axe finds serious or critical, as rule and place. */
export async function seriousOf(page: Page): Promise<string[]> {
  await page.evaluate(axeSource)
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: {
        run(): Promise<{
          violations: { id: string; impact: string; nodes: { html: string }[] }[]
        }>
      }
    }
    const { violations } = await axe.run()
    return violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 120)}`))
  })
}

/** What is wider than the window, cut off, too small for a glove, or too small to read in the sun. */
export function troubleOf(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const name = (one: Element) =>
      `${one.tagName.toLowerCase()}.${one.className} "${one.textContent?.slice(0, 30)}"`
    const isSeen = (one: Element) =>
      one.checkVisibility() && one.closest('.unseen') === null && one.getBoundingClientRect().width > 1
    const all = [...document.querySelectorAll('body *')].filter(isSeen)
    const width = document.documentElement.clientWidth
    const wide = all.filter((one) => {
      const box = one.getBoundingClientRect()
      return box.right > width + 0.5 || box.left < -0.5
    })
    const scrolls = all.filter((one) => {
      const style = getComputedStyle(one)
      return one.scrollWidth > one.clientWidth + 1 && /auto|scroll/.test(style.overflowX)
    })
    const small = all.filter((one) => {
      if (
        !one.matches(
          'button, a, input:not([type=checkbox]), select, textarea, summary, [role=option], .ticks label',
        )
      )
        return false
      const box = one.getBoundingClientRect()
      return box.height < 44 || box.width < 44
    })
    const tiny = all.filter(
      (one) =>
        [...one.childNodes].some((child) => child.nodeType === 3 && child.textContent?.trim()) &&
        Number.parseFloat(getComputedStyle(one).fontSize) < 16,
    )
    const cut = all.filter(
      (one) =>
        one.scrollWidth > one.clientWidth + 1 &&
        one.clientWidth > 0 &&
        !one.matches('input, textarea, select, img') &&
        getComputedStyle(one).display !== 'inline',
    )
    const overflow = document.documentElement.scrollWidth > width ? ['the page itself'] : []
    return [
      ...overflow,
      ...wide.map((one) => `wide: ${name(one)}`),
      ...scrolls.map((one) => `scrolls sideways: ${name(one)}`),
      ...cut.map((one) => `cut: ${name(one)}`),
      ...small.map((one) => `small: ${name(one)}`),
      ...tiny.map((one) => `tiny: ${name(one)}`),
    ]
  })
}
