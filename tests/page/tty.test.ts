import { spawn } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { stripVTControlCharacters } from 'node:util'
import { expect, onTestFinished, test } from 'vitest'
import { projectRoot } from '#src/project.ts'
import { openPracticeBot, planMessage } from '#tests/helpers/practice-bot.ts'
import { request, tokenOf } from './http.ts'
import { MONDAY_MS } from './open-page.ts'

/** Gives a program a terminal of its own; part of every Debian (bsdutils). */
const SCRIPT = '/usr/bin/script'
const DUE = 'Look at the chapel green today'
const DAY_MS = 86_400_000

/** What a person starts, on a terminal of 60 columns, with a message planned for the fifth day. */
async function startOnTerminal() {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-tty-'))
  const file = path.join(folder, 'practice.sqlite')
  const practice = await openPracticeBot({
    address: { engine: 'sqlite', path: file },
    fetchFile: async () => Buffer.alloc(0),
    seededAtMs: MONDAY_MS,
  })
  const dueAtMs = MONDAY_MS + 5 * DAY_MS
  await planMessage(practice.bot, { to: 'bex', text: DUE, nowMs: MONDAY_MS, dueAtMs })
  await practice.close()
  const start = 'stty cols 60; exec node src/launch.mjs src/main.ts --as bex --at 2026-05-04T09:00:00-04:00'
  const { DISCORD_TOKEN: _, PORT: __, ...environment } = process.env
  const child = spawn(SCRIPT, ['-qec', `${start} --database sqlite:${file}`, '/dev/null'], {
    cwd: projectRoot(),
    env: { ...environment, TERM: 'xterm', SHELL: '/bin/sh' },
  })
  const ended = new Promise<number | null>((done) => child.on('close', done))
  let text = ''
  child.stdout.on('data', (piece: Buffer) => {
    text += piece.toString()
  })
  onTestFinished(() => {
    child.kill()
    rmSync(folder, { recursive: true, force: true })
  })
  return {
    ended,
    shown: () => stripVTControlCharacters(text).replaceAll('\r', ''),
    type: (line: string) => child.stdin.write(`${line}\r`),
  }
}

test.skipIf(!existsSync(SCRIPT))(
  'on a terminal the prompt and the page are two doors to one room',
  async () => {
    const { shown, type, ended } = await startOnTerminal()
    const soon = (text: string) => expect.poll(shown, { timeout: 30_000 }).toContain(text)
    await soon('Bex Yolvarren>')
    const address = /http:\/\/[\d.]+:\d+/.exec(shown())?.[0] ?? expect.fail(shown())

    // What is typed at the prompt stands on the page, and nothing is wider than the terminal.
    type('/rate amount:"3 pt/acre" to:"fl oz/1000 ft2"')
    await soon('1.102 fl oz/1000 ft²')
    const { text: events } = await request(address, { path: '/events?as=nila' })
    expect(events).toContain('1.102')
    const answer = shown().slice(shown().indexOf('✓'))
    expect(Math.max(...answer.split('\n').map((line) => line.length))).toBeLessThanOrEqual(60)

    // What falls due when the page moves the clock stands at the prompt, and the clock is one clock.
    const token = await tokenOf(address)
    const moved = await request(address, {
      method: 'POST',
      path: '/ask',
      headers: {
        origin: address,
        'sec-fetch-site': 'same-origin',
        'content-type': 'application/json',
        'x-room-token': token,
      },
      body: JSON.stringify({ id: randomUUID(), as: 'bex', wants: { kind: 'wait', days: 8 } }),
    })
    expect(moved.status).toBe(200)
    await soon(DUE)
    type('/clock')
    await soon('Tue, May 12, 2026')

    // Leaving the prompt ends both.
    type('exit')
    expect(await ended).toBe(0)
    await expect(request(address, {})).rejects.toThrow()
  },
  90_000,
)
