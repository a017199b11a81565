import { seriousOf, troubleOf } from './trouble.ts'
import { MIX } from './whole-job.ts'
import type { RoomWindow } from './window.ts'

/**
 * Goes through the states of the page: the tour, answers of all kinds with everything unfolded, offers, all commands, a
 * form, the clock, and the choice of who one is. Returns what is wrong in any of them.
 */
export async function lookAround({ page, type }: RoomWindow): Promise<readonly string[]> {
  const found: string[] = []
  const look = async (state: string) => {
    for (const one of [...(await troubleOf(page)), ...(await seriousOf(page))]) found.push(`${state}: ${one}`)
  }
  await look('tour')
  await page.locator('#tour .row button').last().click()
  for (const line of [
    MIX,
    '/key site:"Wrennoch Chapel"',
    '/emergency',
    '/site add',
    '/area shape:circle circumference:"800 ft"',
    'unreadable',
  ])
    await type(line)
  for (const details of await page.locator('.slip summary').all()) await details.click()
  await look('answers')
  await page.locator('#line').pressSequentially('/s')
  await page.locator('#offers [role=option]').first().waitFor()
  await look('offers')
  await page.locator('#line').press('Escape')
  await page.locator('#line').fill('')
  await page.locator('#commands').click()
  await look('commands')
  await page.getByRole('button', { name: /^\/mix/ }).click()
  await page.locator('dialog summary').click()
  await page.locator('dialog input').first().pressSequentially('t')
  await page.locator('dialog [role=option]').first().waitFor()
  await look('form')
  await page.keyboard.press('Escape')
  await page.keyboard.press('Escape')
  await page.locator('#clock').click()
  await look('clock')
  await page.goto(new URL('/', page.url()).href)
  await look('who')
  return found
}
