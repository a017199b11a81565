import { PassThrough } from 'node:stream'
import { describe, expect, test } from 'vitest'
import type { Bot } from '#src/bot.ts'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import { complete } from '#src/messengers/room/complete.ts'
import { demoSpeaker } from '#src/messengers/room/demo.ts'
import { paint, wrapText } from '#src/messengers/room/paint.ts'
import { runPrompt } from '#src/messengers/room/prompt.ts'
import type { Address } from '#src/reminders/deliver.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { write } from '#src/store/transaction.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { openRoom } from '#tests/helpers/room.ts'
import { loadDemo } from '../../../data/demo/load.ts'

const demo = loadDemo()
const lead = demoSpeaker(demo, 'lead', 'en')

describe('completion', () => {
  test.each([
    ['/em', ['/emergency ']],
    ['/site a', ['/site add ', '/site area ']],
    ['/mix ta', ['tank:']],
    ['/mix scale:"0.1 g" sca', []],
    ['/nothing', []],
    ['hello', []],
  ])('%j offers %j', async (line, offered) => {
    const { bot } = await openRoom()
    expect((await complete(bot, lead, line))[0]).toEqual(offered)
  })

  test('offers all options of a command but those that are there already', async () => {
    const { bot } = await openRoom()
    const [offered, replaced] = await complete(bot, lead, '/site add name:"x" ')
    expect(offered).toContain('address:')
    expect(offered).not.toContain('name:')
    expect(replaced).toBe('')
  })

  test('offers names of the crew’s own, in quotes, slips forgiven', async () => {
    const { bot } = await openRoom()
    const [name] = demo.sites.map((site) => site.name)
    const [offered, replaced] = await complete(bot, lead, `/site show site:"${name?.slice(0, 5)}`)
    expect(offered[0]).toBe(`site:"${name}" `)
    expect(replaced).toBe(`site:"${name?.slice(0, 5)}`)
  })

  test('never fails, whatever stands on the line', async () => {
    const { bot } = await openRoom()
    for (const line of [
      '/',
      '/mix constructor:',
      '/mix __proto__:"',
      '/site show site:"\\',
      `/${'('.repeat(500)}`,
    ])
      expect(Array.isArray((await complete(bot, lead, line))[0])).toBe(true)
  })
})

describe('an answer on paper', () => {
  test('shows outcome, safety, number and standing line; the working only when asked for', async () => {
    const { session } = await openRoom()
    const [shown] = await session.type(
      '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2"',
    )
    if (shown === undefined) throw new Error('nothing shown')
    const { presented } = shown
    const painted = paint(presented, { width: 80 })
    expect(painted.split('\n')[0]).toBe(`${presented.mark} ${presented.word}: ${presented.title}`)
    for (const { text } of presented.safety) expect(flat(painted)).toContain(flat(text))
    expect(flat(painted)).toContain(flat(presented.standing))
    expect(painted).toContain(presented.numberLine)
    const [step = ''] = presented.working
    expect(step).not.toBe('')
    expect(flat(painted)).not.toContain(flat(step))
    expect(flat(paint(presented, { width: 80, working: true }))).toContain(flat(step))
  })

  test('no line is wider than the terminal, but for a word that is wider itself', () => {
    const text = 'one two three four five\nsix'
    expect(wrapText(text, 12, '  ')).toBe('  one two\n  three four\n  five\n  six')
    expect(wrapText('x'.repeat(40), 12, '')).toBe('x'.repeat(40))
    expect(wrapText('', 12, ' ')).toBe(' ')
  })

  test('a form lists its fields, which must be filled in, and what stands in them', async () => {
    const { session } = await openRoom()
    const [shown] = await session.type('/site add name:"Row 5"')
    if (shown === undefined) throw new Error('nothing shown')
    const painted = paint(shown.presented, { width: 100 })
    expect(painted).toContain('= name: Name of the site * [Row 5]')
    expect(painted).toContain('= photo: Photo\n')
  })
})

/** The lead at a prompt in this process. */
async function openPrompt() {
  const { bot, session } = await openRoom()
  const input = new PassThrough()
  const output = new PassThrough()
  const pieces: string[] = []
  output.on('data', (piece: Buffer) => pieces.push(piece.toString()))
  const nameOf = (personKey: string) => demo.people.find(({ key }) => key === personKey)?.name
  const ended = runPrompt({ bot, session, speaker: lead, locale: 'en', nameOf, input, output })
  const leave = (...lines: string[]) => {
    for (const line of [...lines, 'exit']) input.write(`${line}\n`)
    return ended
  }
  return { bot, session, seen: () => pieces.join(''), leave }
}

test('a person at the prompt is greeted, gets help, answers by number, and leaves', async () => {
  const { seen, leave } = await openPrompt()
  await leave('?', '/rate amount:"3 pt/acre" to:"fl oz/1000 ft2"', 'w', '77')
  expect(seen()).toContain(`You are ${lead.personName} of the demo crew`)
  expect(seen()).toContain('/site add name: address: photo:')
  expect(seen()).toContain('fl oz')
  expect(seen().match(/✕/g)).toHaveLength(1)
})

test('what arrives by itself stands above the line that is being typed, and a number answers it', async () => {
  const { session, seen, leave } = await openPrompt()
  const due: Answered = {
    reply: reply('heads-up', asTyped('Look at the chapel green today'), { audience: 'person' }),
    number: 7,
    turnId: 7,
    language: { person: 'en', crew: 'en' },
    zone: 'America/New_York',
    replayed: false,
    demo: true,
  }
  const here: Address = { crewKey: lead.crewKey, personKey: lead.personKey, channelKey: null }
  const beforeAny = seen()
  await session.hear({ ...here, personKey: 'bex' }, due, 'one')
  expect(seen()).toBe(beforeAny)
  await session.hear(here, due, 'two')
  expect(seen()).toContain('Look at the chapel green today')
  expect(seen().trimEnd().endsWith(`${lead.personName}>`)).toBe(true)
  expect(session.last?.answered.turnId).toBe(7)
  await leave()
  const before = seen()
  await session.hear(here, due, 'three')
  expect(seen()).toBe(before)
})

test('when the clock is moved, a message that only somebody else gets names them above it', async () => {
  const { bot, seen, leave } = await openPrompt()
  const other = demo.people.find(({ role, key }) => role === 'crew' && key !== lead.personKey)
  if (other === undefined) throw new Error('the demo crew has one person')
  await planFor(bot, other.key, 'The strip wants a look')
  await planFor(bot, lead.personKey, 'The week is over')
  await leave('+ 1 day')
  const [before = '', after = ''] = seen().split('The strip wants a look')
  expect(before.trimEnd().split('\n').at(-2)).toBe(`Only ${other.name} gets this:`)
  expect(after).toContain('The week is over')
  expect(seen().match(/Only .* gets this:/g)).toHaveLength(1)
})

async function planFor({ database }: Bot, personKey: string, words: string): Promise<void> {
  await write(database, async (db) => {
    const crew = await findCrew(db, lead.crewKey)
    if (crew === undefined) throw new Error('the demo crew is gone')
    const store = crewStore(db, crew.id)
    const person = await store.people.find(personKey)
    if (person === undefined) throw new Error(`nobody is called ${personKey}`)
    await store.deliveries.plan(
      {
        personId: person.id,
        command: 'mix',
        reply: reply('answer', asTyped(words), { audience: 'person' }),
        nonce: words,
        dueAtMs: NOON_MS,
      },
      NOON_MS,
    )
  })
}

const flat = (text: string) => text.replace(/\s+/g, ' ').trim()
