import { mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { expect, test } from 'vitest'
import { inChromium } from './browser.ts'
import { request } from './http.ts'
import { openPage } from './open-page.ts'
import { MIX } from './whole-job.ts'

inChromium('windows of several people', (stage) => {
  const { window } = stage
  test('a shared answer shows in the other window at once, a private one never', async () => {
    const bex = await window('bex')
    const nila = await window('nila')
    const before = await nila.slips()
    await nila.awaits(() => bex.type(MIX))
    expect(await nila.newest.locator('.figure').textContent()).toBe('3.2 g')
    expect(await nila.newest.locator('.asked').textContent()).toBe('To the crewBex Yolvarren')
    // Its buttons are for whom it answers.
    expect(await nila.newest.locator('.choices button, form').count()).toBe(0)
    expect(await nila.newest.getByText('The other buttons are for Bex Yolvarren.').isVisible()).toBe(true)
    // It is told to who cannot see it.
    expect(await nila.page.getByRole('log').textContent()).toContain('Bex Yolvarren: Answer. 3.2 g')
    await bex.type('/site show site:"Plimmet Street House"')
    await bex.type('/last')
    expect(await bex.newest.locator('.asked').textContent()).toContain('Only to you')
    const privately = await bex.newest.getAttribute('data-turn')
    await nila.type('/last')
    expect(await nila.page.locator(`[data-turn="${privately}"]`).count()).toBe(0)
    expect(await nila.slips()).toBeLessThanOrEqual(before + 3)
    // Nor do its pictures and words come by another way.
    const path = `/files/${privately}/0?as=nila`
    expect((await request(stage.room.address, { path })).status).toBe(404)
  })

  test('who prefers Spanish has the page and the crew’s answers in Spanish', async () => {
    const teo = await window('teo')
    const bex = await window('bex')
    expect(await teo.page.locator('html').getAttribute('lang')).toBe('es')
    expect(await teo.page.getByRole('button', { name: 'Enviar' }).isVisible()).toBe(true)
    expect(await teo.page.locator('.banner').textContent()).toBe('Práctica · cuadrilla de muestra')
    await teo.awaits(() => bex.type(MIX))
    expect(await teo.newest.locator('.word').textContent()).toBe('✓ Respuesta')
    expect(await teo.newest.textContent()).toContain('Mida con')
    await teo.page.getByRole('button', { name: 'Comandos' }).click()
    const commands = teo.page.getByRole('dialog', { name: 'Comandos' })
    expect(await commands.getByRole('button', { name: /^\/mix/ }).textContent()).not.toContain('How much')
  })

  test('a shared answer is read in the other language with one press, a private one is in one’s own', async () => {
    const bex = await window('bex')
    const teo = await window('teo')
    await teo.awaits(() => bex.type(MIX))
    const inSpanish = await teo.newest.locator('.title').textContent()
    await bex.awaits(() => bex.newest.getByRole('button', { name: 'Español' }).click())
    expect(await bex.newest.locator('.title').textContent()).toBe(inSpanish)
    expect(await bex.newest.locator('.choices, form, .languages').count()).toBe(0)
    await teo.awaits(() => teo.newest.getByRole('button', { name: 'English' }).click())
    expect(await teo.newest.locator('.word').textContent()).toBe('✓ Answer')
    await bex.type('/site show site:"Plimmet Street House"')
    await bex.type('/last')
    expect(await bex.newest.locator('.asked').textContent()).toContain('Only to you')
    expect(await bex.newest.locator('.languages').count()).toBe(0)
  })

  test('what people type stays text: no tag, no script, no direction marks', async () => {
    const { page, newest, type } = await window('odalys')
    const bex = await window('bex')
    const hostile = '<img src=x onerror="window.hit=1"><script>window.hit=1</script>\u202etxt'
    await type(`/site add name:"${hostile.replaceAll('"', '\\"').slice(0, 60)}"`)
    expect(await newest.getByLabel(/^Name of the site/).inputValue()).toContain('<img src=x')
    await type(hostile)
    await type(`/rate amount:"${hostile.replaceAll('"', '')}" to:"<b>oz</b>"`)
    await type(`/${hostile}`)
    expect(await newest.textContent()).not.toContain('\u202e')
    const own = await page.evaluate(() => ({
      hit: 'hit' in globalThis,
      images: [
        ...document.querySelectorAll(
          '.slip img:not([src^="/files/"]), .slip script, .slip b b, .slip iframe',
        ),
      ].length,
    }))
    expect(own).toEqual({ hit: false, images: 0 })
    await bex.type(`/mix product:"${'<svg onload=alert(1)>'}" tank:"2 gal"`)
    expect(await bex.newest.locator('svg').count()).toBe(0)
  })

  test('a page from elsewhere can neither ask, nor listen, nor frame', async () => {
    const { page, slips, type, newest } = await window('bex')
    await type('/last')
    const number = async () => Number(await newest.locator('.stub span').textContent())
    const [before, count] = [await number(), await slips()]
    const foreign = createServer((_request, response) => {
      response.setHeader('content-type', 'text/html')
      response.end('<!doctype html><title>elsewhere</title><body>')
    })
    await new Promise<void>((done) => foreign.listen(0, '127.0.0.1', done))
    const elsewhere = await page.context().newPage()
    await elsewhere.goto(`http://localhost:${(foreign.address() as AddressInfo).port}/`)
    const tried = await elsewhere.evaluate(async (address) => {
      const body = JSON.stringify({ id: crypto.randomUUID(), as: 'bex', wants: { kind: 'morning' } })
      const asked = await fetch(`${address}/ask`, { method: 'POST', mode: 'no-cors', body }).then(
        (response) => response.type,
        () => 'refused',
      )
      const heard = await new Promise((done) => {
        const source = new EventSource(`${address}/events?as=bex`)
        source.onmessage = () => done('heard')
        source.onerror = () => done('nothing')
      })
      const frame = document.createElement('iframe')
      frame.src = `${address}/?as=bex`
      const framed = await new Promise((done) => {
        frame.onload = () => done(frame.contentDocument === null ? 'closed' : 'open')
        document.body.append(frame)
      })
      return { asked, heard, framed }
    }, stage.room.address)
    expect(tried.heard).toBe('nothing')
    expect(tried.framed).toBe('closed')
    foreign.close()
    await elsewhere.close()
    await type('/last')
    expect({ number: await number(), slips: await slips() }).toEqual({ number: before + 1, slips: count + 1 })
    // The attempts are what the browser complains of here.
    ;(stage.complaints as string[]).length = 0
  })
})

const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-page-restart-'))

inChromium(
  'a server that starts anew',
  (stage) => {
    const { window } = stage
    test('nothing is lost: what was missed arrives, what was sent meanwhile is answered once', async () => {
      const bex = await window('bex')
      const nila = await window('nila')
      await bex.type(MIX)
      const port = Number(new URL(stage.room.address).port)
      await stage.room.close()
      await expect.poll(() => bex.page.locator('#lost').isVisible()).toBe(true)
      const before = await bex.slips()
      await bex.page.locator('#line').fill('/site show site:"Wrennoch Chapel"')
      await bex.page.locator('#line').press('Enter')
      const again = await openPage({ port, database: path.join(folder, 'room.sqlite') })
      try {
        await expect.poll(() => bex.slips(), { timeout: 15_000 }).toBe(before + 1)
        await expect
          .poll(() => nila.page.locator('.slip h2').last().textContent(), { timeout: 15_000 })
          .toContain('Wrennoch Chapel')
        await expect.poll(() => bex.page.locator('#lost').isVisible()).toBe(false)
        expect(await nila.slips()).toBe(before + 1)
        await bex.type('/last')
        expect(await bex.newest.locator('.stub span').textContent()).toBe(String(before + 2))
      } finally {
        await bex.page.context().close()
        await nila.page.context().close()
        await again.close()
        rmSync(folder, { recursive: true, force: true })
      }
    })
  },
  { database: path.join(folder, 'room.sqlite') },
)
