import { expect, test } from 'vitest'
import { planMessage } from '#tests/helpers/practice-bot.ts'
import { inChromium } from './browser.ts'
import { MIX } from './whole-job.ts'
import { DESK, PHONE } from './window.ts'

inChromium('work on the practice page', (stage) => {
  const { window } = stage
  test('a mix by its form: found by name, completed while typed, the number first and large', async () => {
    const { page, newest, awaits } = await window('bex')
    await page.getByRole('button', { name: 'Commands' }).click()
    await page.getByRole('searchbox').fill('concentrate')
    await page.getByRole('button', { name: /^\/mix/ }).click()
    const form = page.getByRole('dialog', { name: '/mix' })
    await form.getByRole('combobox', { name: /^Product/ }).pressSequentially('tarnbrsk')
    await form.getByRole('option', { name: 'Tarnbrask 75 WDG' }).click()
    await form.getByLabel(/^How much mix/).fill('1/2')
    await form.getByRole('combobox', { name: /^Sprayer/ }).pressSequentially('hand')
    await form.getByRole('option', { name: 'Hand can' }).click()
    await form.getByRole('combobox', { name: /^Site/ }).fill('Wrennoch Chapel')
    // Only areas of the site that is chosen already.
    await form.getByRole('combobox', { name: /^Area/ }).press('ArrowDown')
    await expect
      .poll(() => form.locator('.offers [role=option]:visible').allTextContents())
      .toEqual(['Chapel green'])
    await form.locator('.offers [role=option]:visible').click()
    await awaits(() => form.getByRole('button', { name: 'Ask' }).click())
    expect(await form.count()).toBe(0)
    expect(await newest.locator('.figure').textContent()).toBe('3.2 g')
    expect(await newest.locator('.word').textContent()).toBe('✓ Answer')
    // Figures stay with their units.
    const title = 'of Tarnbrask 75 WDG (0.1129\u00a0oz\u00a0wt)'
    expect(await newest.locator('.title').textContent()).toBe(title)
    expect(await newest.getByText('Measure with: pocket scale').isVisible()).toBe(true)
    expect(await newest.getByRole('region', { name: 'Safety' }).isVisible()).toBe(true)
    expect(await newest.locator('.small').last().textContent()).toMatch(/Answer no\. \d+ .*Demo data/)
    const step = newest.locator('.working li').first()
    expect(await step.isVisible()).toBe(false)
    await newest.getByText('Show the working').click()
    expect(await step.isVisible()).toBe(true)
  })

  test('the same mix by a typed line, and pressed by its number', async () => {
    const { newest, type } = await window('bex')
    await type(MIX)
    expect(await newest.locator('.figure').textContent()).toBe('3.2 g')
    await type('> 1')
    expect(await newest.locator('h2').textContent()).toContain('Hand can')
    await type('no command at all')
    expect(await newest.getAttribute('data-outcome')).toBe('refusal')
  })

  test('a question is answered by its button, which is then used up where it stands', async () => {
    const { page, newest, type, awaits } = await window('nila')
    await type('/key site:"Wrennoch Chapel"')
    expect(await newest.getAttribute('data-outcome')).toBe('question')
    const picture = newest.locator('img').first()
    await expect
      .poll(() => picture.evaluate((img: HTMLImageElement) => img.naturalWidth))
      .toBeGreaterThan(100)
    expect(await picture.getAttribute('alt')).not.toBe('')
    const turn = await newest.getAttribute('data-turn')
    const asked = page.locator(`[data-turn="${turn}"] .choices button`).first()
    await awaits(() => asked.click())
    await expect.poll(() => asked.getAttribute('aria-disabled')).toBe('true')
    // Who pressed goes on at the answer.
    expect(
      await page.evaluate(() => document.activeElement?.closest('.slip')?.getAttribute('data-turn')),
    ).toBe(await newest.getAttribute('data-turn'))
  })

  test('an error stands beside its field, what was typed stays, and mended it goes through', async () => {
    const { page, newest, awaits } = await window('bex')
    await page.getByRole('button', { name: 'Commands' }).click()
    await page.getByRole('button', { name: /^\/rate/ }).click()
    const form = page.getByRole('dialog', { name: '/rate' })
    const amount = form.getByLabel(/^Rate:/)
    await amount.fill('3 buckets')
    await form.getByLabel(/^Unit wanted/).fill('fl oz/1000 ft2')
    await awaits(() => form.getByRole('button', { name: 'Ask' }).click())
    expect(await amount.getAttribute('aria-invalid')).toBe('true')
    const wrong = page.locator(`[id="${await amount.getAttribute('aria-describedby')}"]`)
    expect(await wrong.textContent()).toMatch(/^Mend this: .+/)
    expect(await amount.inputValue()).toBe('3 buckets')
    expect(await page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe('amount')
    await amount.fill('3 pt/acre')
    await awaits(() => form.getByRole('button', { name: 'Ask' }).click())
    expect(await newest.getAttribute('data-outcome')).not.toBe('refusal')
    expect(await newest.locator('.figure').textContent()).toMatch(/^1\.102/)
  })

  test('an answer’s own form: wrong at first, then a site with a picture in two steps', async () => {
    const { page, newest, type, awaits } = await window('odalys')
    await type('/site add')
    const send = () => newest.getByRole('button', { name: 'Send' }).click()
    await newest.getByLabel(/^Name of the site/).fill('Test Row')
    await newest.getByLabel(/^Address/).fill('nowhere')
    await awaits(send)
    expect(await newest.locator('h2').textContent()).toContain('Not saved yet')
    expect(await newest.getByLabel(/^Name of the site/).inputValue()).toBe('Test Row')
    await newest.getByLabel(/^Address/).fill('5 Row Street, Fallowquay, NC 00012')
    await newest.getByLabel(/^Photo/).setInputFiles('docs/figures/collar.png')
    await awaits(send)
    const step = await newest.getAttribute('data-turn')
    await newest.locator('input[type="text"]').first().fill('Front')
    await newest
      .getByLabel(/ft²|size|Size|square/i)
      .first()
      .fill('4000 ft2')
    const turf = newest.getByLabel(/grass|turf/i).first()
    await turf.fill('tall fescue')
    await awaits(send)
    expect(await newest.locator('h2').textContent()).toContain('Test Row')
    expect(await page.locator(`[data-turn="${step}"] input`).first().isDisabled()).toBe(true)
    expect(await newest.locator('figure img').count()).toBeGreaterThan(0)
  })

  test('the clock is moved, and what is due by then arrives by itself, at whom it is for', async () => {
    const bex = await window('bex')
    const nila = await window('nila')
    const { bot, clock } = stage.room
    const nowMs = clock.peekMs()
    await planMessage(bot, {
      to: 'bex',
      text: 'Look at the chapel green today',
      nowMs,
      dueAtMs: nowMs + 5 * 86_400_000,
    })
    const before = await bex.page.locator('#day').textContent()
    const others = await nila.slips()
    await bex.page.getByRole('button', { name: /Practice clock/ }).click()
    await bex.awaits(() => bex.page.getByRole('button', { name: 'Next morning' }).click())
    await expect.poll(() => bex.page.locator('#time').textContent()).toMatch(/^7:0\d AM$/)
    expect(await bex.page.locator('#day').textContent()).not.toBe(before)
    await bex.page.getByRole('button', { name: /Practice clock/ }).click()
    await bex.page.getByRole('button', { name: '+ 8 days' }).click()
    await expect
      .poll(() => bex.page.locator('.slip h2').allTextContents())
      .toContainEqual(expect.stringContaining('Look at the chapel green today'))
    await expect
      .poll(() => nila.page.locator('#day').textContent())
      .toBe(await bex.page.locator('#day').textContent())
    expect(await nila.slips()).toBe(others)
  })

  test.each([PHONE, DESK])(
    'the tour goes through a whole job in five steps at $width × $height',
    async (size) => {
      const { page, awaits, newest } = await window('bex', { size, hasTour: true })
      const tour = page.getByRole('region', { name: /^Tour/ })
      const heads: string[] = []
      for (let step = 1; step <= 5; step++) {
        heads.push((await tour.getByRole('heading').textContent()) ?? '')
        await awaits(async () => {
          await tour.locator('button').first().click()
          const ask = page.getByRole('dialog').getByRole('button', { name: 'Ask' })
          if (await page.getByRole('dialog').count()) await ask.click()
        })
        expect(await newest.getAttribute('data-outcome'), heads.at(-1)).not.toBe('refusal')
        await tour.getByRole('button', { name: step === 5 ? 'Done' : 'Next' }).click()
      }
      expect(heads.map((head) => head.slice(0, 8))).toEqual([1, 2, 3, 4, 5].map((step) => `Tour ${step}/5`))
      expect(await tour.count()).toBe(0)
      await page.reload()
      await page.locator('#main[data-live]').waitFor()
      expect(await tour.count()).toBe(0)
    },
  )

  test('the tour can be skipped at once', async () => {
    const { page } = await window('bex', { hasTour: true })
    await page.getByRole('button', { name: 'Skip' }).click()
    expect(await page.getByRole('region', { name: /^Tour/ }).count()).toBe(0)
  })
})
