import { spawn, spawnSync } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { textOf } from '#tests/messengers/discord/seen.ts'
import { startMachine } from './process.ts'
import { HAND_CAN } from './seed.ts'

/** Whether system calls can be watched here: strace is there, and this user may use it. */
const canWatch = spawnSync('strace', ['-e', 'trace=none', 'true']).status === 0

/** A line of the trace: which call, on what, and the beginning of the bytes. */
interface Call {
  readonly name: string
  readonly line: string
}

const CALLBACK = /POST \/api\/v10\/interactions\/\d+\//

test.skipIf(!canWatch)(
  canWatch
    ? 'what is answered is on disk before the first byte of the answer leaves'
    : 'left out: strace is not here, or may not be used, so that nobody can watch the disk',
  async () => {
    const machine = await startMachine()
    const { platform, folder } = machine
    const bot = machine.start()
    await bot.ready()
    const trace = path.join(folder, 'trace.txt')
    const strace = spawn(
      'strace',
      [
        '-f',
        '-y',
        '-s',
        '200',
        '-o',
        trace,
        '-e',
        'trace=fsync,fdatasync,pwrite64,write,writev,sendto,sendmsg',
        '-p',
        String(bot.child.pid),
      ],
      { stdio: 'ignore' },
    )
    onTestFinished(() => void strace.kill('SIGKILL'))
    // It is attached once the first calls show up.
    const asked = () =>
      platform.slash({
        name: 'mix',
        user: 'demo.crew',
        channel: 'field',
        options: { rate: '1 fl oz/1000 ft2', tank: '2 gal', sprayer: HAND_CAN },
      })
    for (
      let n = 0;
      n < 50 && !(existsSync(trace) && readFileSync(trace, 'utf8').includes('POST /api'));
      n += 1
    ) {
      await asked()
        .message(10_000)
        .catch(() => null)
      await new Promise((done) => setTimeout(done, 100))
    }
    const message = await asked().message(10_000)
    expect(textOf(message)).toContain('Answer no.')
    strace.kill('SIGINT')
    if (strace.exitCode === null && strace.signalCode === null) await once(strace, 'exit')

    const calls = readFileSync(trace, 'utf8')
      .split('\n')
      .flatMap((line): Call[] => {
        const name = /^\d+ +(?:<\.\.\. )?(\w+)/.exec(line)?.[1]
        return name === undefined ? [] : [{ name, line }]
      })
    const answers = calls.flatMap(({ line }, at) => (CALLBACK.test(line) ? [at] : []))
    expect(answers.length).toBeGreaterThan(0)
    for (const [nth, at] of answers.entries()) {
      // Between the answer before and this one, the journal was written and then brought to disk.
      const before = calls.slice(nth === 0 ? 0 : answers[nth - 1], at)
      const written = before.findLastIndex(
        ({ line, name }) => name === 'pwrite64' && line.includes('.sqlite-wal'),
      )
      const synced = before.findLastIndex(
        ({ line, name }) => /^f(data)?sync$/.test(name) && line.includes('.sqlite-wal'),
      )
      if (nth === 0 && written === -1) continue
      expect(written, `answer ${nth + 1} was written`).toBeGreaterThanOrEqual(0)
      expect(synced, `answer ${nth + 1} was synced`).toBeGreaterThan(written)
    }
  },
  90_000,
)
