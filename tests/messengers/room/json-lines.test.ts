import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, expect, test } from 'vitest'
import { ArgumentError, readRoomArguments } from '#src/messengers/room/arguments.ts'
import { openDatabase } from '#src/store/open.ts'
import { runRoom } from '#tests/helpers/room.ts'

const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-lines-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

test('lines in, objects out, in order, and status 0 when the input ends', async () => {
  const { lines, status, errors } = await runRoom(
    [
      '/site add name:"Row 5"',
      '= address:"5 Row St"',
      '',
      'no command at all',
      '+ 8 days',
      '/rate amount:"3 pt/acre" to:"fl oz/1000 ft2"',
      'I got it in my eye',
      '> 1',
    ],
    ['--as', 'lead', '--at', '2026-05-04T09:00:00-05:00'],
  )
  expect(lines.map(({ outcome }) => outcome)).toEqual([
    'question',
    'question',
    'refusal',
    'answer',
    'answer',
    'hold',
    'answer',
  ])
  // Every line has its number, also the one that could not be read.
  expect(lines.map(({ number }) => number)).toEqual(['1', '2', '3', '4', '5', '6', '7'])
  expect(lines[1]?.form?.fields.map(({ value }) => value).slice(0, 2)).toEqual(['Row 5', '5 Row St'])
  expect(String(lines[3]?.facts.now?.value)).toMatch(/^2026-05-12T14:00:\d\d\.\d{3}Z$/)
  expect(lines[3]?.facts.due?.value).toBe(0)
  expect(lines[4]?.facts.converted?.unit).toBe('fl oz/1000 ft2')
  expect(status).toBe(0)
  expect(errors).toBe('')
})

test('a named file keeps what was said; without one every room is new', async () => {
  const file = path.join(folder, 'room.sqlite')
  const there = ['--database', `sqlite:${file}`]
  const ask = ['/rate amount:"3 pt/acre" to:"fl oz/1000 ft2"']
  const numbers = []
  for (const args of [there, there, []]) numbers.push((await runRoom(ask, args)).lines[0]?.number)
  expect(numbers).toEqual(['1', '2', '1'])
  expect(existsSync(file)).toBe(true)
})

test('the crew may not do what leads may, and the pseudo-language reaches every word', async () => {
  const { lines, status } = await runRoom(['/site add'], ['--as', 'crew', '--locale', 'en-XA'])
  expect(lines).toMatchObject([{ outcome: 'refusal', form: null }])
  const words = [lines[0]?.title, lines[0]?.text, ...(lines[0]?.safety.map(({ text }) => text) ?? [])]
  expect(words.flatMap((text) => text?.match(/[a-z]{3,}/gi) ?? [])).toEqual([])
  expect(status).toBe(0)
})

test.each([
  [['--at', 'yesterday'], 'Cannot read the time "yesterday": write it as 2026-05-04T09:00:00-05:00'],
  [['--colour', 'red'], '--colour'],
  [['stray'], 'stray'],
])('with the arguments %j it says what is wrong, and does not start', (args, sentence) => {
  expect(() => readRoomArguments(args)).toThrow(ArgumentError)
  expect(() => readRoomArguments(args)).toThrow(sentence)
})

test('a live store is refused by the practice room in one clear sentence', async () => {
  const file = path.join(folder, 'live.sqlite')
  await (await openDatabase({ engine: 'sqlite', path: file }, 'live')).close()
  const { lines, status, errors } = await runRoom(['/mix'], ['--database', `sqlite:${file}`])
  expect({ lines, status, errors }).toEqual({
    lines: [],
    status: 1,
    errors: 'Cannot open the database: it is a live database and this is a practice run\n',
  })
})
