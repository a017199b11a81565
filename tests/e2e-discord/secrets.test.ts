import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'
import { backUp } from '#src/backup/back-up.ts'
import { textOf } from '#tests/messengers/discord/seen.ts'
import { startMachine } from './process.ts'
import { HAND_CAN } from './seed.ts'

const crew = { user: 'demo.crew', channel: 'field' }
const CALLBACK = { method: 'POST', route: /callback$/ }
const SECRET_WORDS = 'gate code is pretend-4711'

/** Everything in the files below a folder, as text. */
const contentsOf = (folder: string) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((one) => one.isFile())
    .map((one) => readFileSync(path.join(one.parentPath, one.name), 'latin1'))
    .join('\n')

test('no token stands in log, store or backup, and the log holds nothing that people typed', async () => {
  const machine = await startMachine()
  const { platform, folder, address } = machine
  const bot = machine.start({ LOG_LEVEL: 'debug' })
  await bot.ready()
  const options = { rate: '1 fl oz/1000 ft2', tank: '2 gal', sprayer: HAND_CAN }
  const fired = [
    platform.slash({ name: 'mix', ...crew, options }),
    platform.slash({ name: 'mix', ...crew, options: { ...options, rate: SECRET_WORDS } }),
  ]
  for (const one of fired) expect(textOf(await one.message(20_000))).toContain('Answer no.')
  // Trouble is what makes programs talk.
  platform.faults.serverError(CALLBACK, { times: 8 })
  fired.push(platform.slash({ name: 'mix', ...crew, options }))
  platform.faults.drop(CALLBACK, { when: 'before', times: 4 })
  fired.push(platform.slash({ name: 'mix', ...crew, options }))
  platform.gateway.sendRaw('{"op":0,"t":"INTERACTION_CREATE","d":{"token":"pretend.interaction.token"}}')
  await new Promise((done) => setTimeout(done, 3000))
  const made = await backUp({
    address,
    filesFolder: path.join(folder, 'files'),
    backupsFolder: path.join(folder, 'backups'),
    keep: 1,
    nowMs: Date.now(),
  })
  bot.child.kill('SIGTERM')
  await bot.ended()

  const tokens = [platform.token, 'pretend.interaction.token', ...fired.map(({ record }) => record.token)]
  const kept = contentsOf(made.folder)
  const file = address.engine === 'sqlite' ? address.path : ''
  const store = ['', '-wal'].flatMap((end) => {
    try {
      return [readFileSync(`${file}${end}`, 'latin1')]
    } catch {
      return []
    }
  })
  expect(bot.output()).toContain('"msg":"ready"')
  expect(kept).toContain(SECRET_WORDS)
  for (const token of tokens) {
    expect(bot.output()).not.toContain(token)
    expect(kept).not.toContain(token)
    expect(store.join('')).not.toContain(token)
  }
  expect(bot.output()).not.toContain(SECRET_WORDS)
}, 120_000)
