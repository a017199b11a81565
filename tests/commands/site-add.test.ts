import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import siteAdd from '#commands/site-add.ts'
import type { Ask, FileHandle } from '#src/conversation/ask.ts'
import { say } from '#src/conversation/text.ts'
import { writeToken } from '#src/conversation/token.ts'
import type { Answered } from '#src/desk/desk.ts'
import { takeFilesInto } from '#src/desk/take-files.ts'
import { blobsIn } from '#src/store/blobs.ts'
import { lead, press, run, submit } from '#tests/helpers/asks.ts'
import { eachEngine, sqlitePlace } from '#tests/helpers/engines.ts'
import { PNG } from '#tests/helpers/pictures.ts'
import { linesOf, startProcess } from '#tests/helpers/processes.ts'
import { openRoom } from '#tests/helpers/room.ts'
import { openTestDesk } from '#tests/helpers/test-desk.ts'

let folder = ''
let photo = ''
beforeAll(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'swardhand-site-'))
  photo = path.join(folder, 'gate.png')
  writeFileSync(photo, PNG)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const SITE = { name: 'Row 5', address: '5 Row St, Noplace NC 27000', mind: 'a dog' }
const AREA = { name: 'A1', size: '6000 ft2', turfs: 'tall fescue', use: 'lawn' }
const typed = (values: Readonly<Record<string, string>>) =>
  `= ${Object.entries(values)
    .map(([name, value]) => `${name}:"${value}"`)
    .join(' ')}`

describe.each(['en', 'en-XA'])('a site in two short steps, in %s', (locale) => {
  /** In the pseudo-language, whatever shows a plain English word never went through the words. */
  const untranslated = (text: string) =>
    locale === 'en' ? [] : (text.replaceAll(/Row 5|A1/g, '').match(/[a-z]{3,}/gi) ?? [])

  test('one wrong field comes back filled in, a photo goes in, a picture comes out', async () => {
    const room = await openRoom({ locale })
    const first = await room.ask('/site add')
    expect(first).toMatchObject({ outcome: 'question', number: '1', choices: [] })
    expect(first.form?.fields.map(({ name }) => name)).toEqual([
      'name',
      'address',
      'customer',
      'mind',
      'photo',
    ])

    const wrong = await room.ask(typed({ ...SITE, address: '5 Row St' }))
    expect(wrong).toMatchObject({ outcome: 'question', number: '2' })
    expect(wrong.form?.fields.map(({ value }) => value)).toEqual(['Row 5', '5 Row St', null, 'a dog', null])

    const second = await room.ask(`= address:"${SITE.address}" photo:"${photo}"`)
    expect(second.form?.fields.map(({ name }) => name)).toEqual(['name', 'size', 'turfs', 'use', 'seeded'])

    const wrongAgain = await room.ask(typed({ ...AREA, size: 'large' }))
    expect(wrongAgain.form?.fields[0]?.value).toBe('A1')

    const done = await room.ask(`= size:"6000 ft2"`)
    expect(done).toMatchObject({ outcome: 'answer', number: '5', form: null })
    expect(Object.values(done.facts)).toContainEqual(expect.objectContaining({ value: 6000, unit: 'ft2' }))
    expect(done.files.map(({ name, type }) => [name, type])).toEqual([
      ['site.png', 'image/png'],
      ['photo-1.png', 'image/png'],
    ])
    for (const file of done.files) {
      const bytes = readFileSync(file.path)
      expect(bytes.byteLength).toBe(file.bytes)
      expect(bytes.subarray(1, 4).toString()).toBe('PNG')
    }
    expect(readFileSync(done.files[1]?.path ?? '').equals(PNG)).toBe(true)

    for (const { title, form } of [first, wrong, second, done]) {
      const words = [title, form?.title, ...(form?.fields ?? []).flatMap(({ label, hint }) => [label, hint])]
      expect(words.flatMap((text) => untranslated(text ?? ''))).toEqual([])
    }
    expect(room.errors).toEqual([])
  })

  test('a name that is taken is told at the first step', async () => {
    const room = await openRoom({ locale })
    await room.ask('/site add')
    await room.ask(typed(SITE))
    await room.ask(typed(AREA))
    await room.ask('/site add')
    const again = await room.ask(typed({ ...SITE, name: 'ROW 5' }))
    expect(again).toMatchObject({ outcome: 'question' })
    expect(again.text).toContain('ROW 5')
  })
})

const handle = (): FileHandle => ({ name: 'gate.png', type: 'image/png', bytes: PNG.byteLength, url: photo })

eachEngine('a site in two steps, whatever goes wrong on the way', (place) => {
  async function open() {
    const takeFiles = takeFilesInto(blobsIn(folder), async ({ url }) => readFileSync(url))
    return openTestDesk(await place.open(), { commands: [siteAdd], takeFiles })
  }
  const asLead = { by: lead }

  test('every request delivered twice makes one site, one area and one photo', async () => {
    const desk = await open()
    const twice = async (ask: Ask): Promise<Answered> => {
      const [first, second] = await Promise.all([desk.answer(ask), desk.answer(ask)])
      expect(second).toMatchObject({ number: first?.number, reply: first?.reply })
      return first
    }
    const first = await twice(run('site add', {}, asLead))
    const second = await twice(submit(first, { ...SITE, photo: [handle()] }, asLead))
    const done = await twice(submit(second, AREA, asLead))
    expect(done).toMatchObject({ number: 3, reply: { outcome: 'answer' } })
    const sites = await desk.look((store) => store.sites.list())
    expect(sites).toMatchObject([{ name: 'Row 5', details: { notes: 'a dog' } }])
    expect(await desk.look((store) => store.sites.allAreas())).toMatchObject([
      { name: 'A1', squareFeet: '6000', details: { turfs: ['tall-fescue'] } },
    ])
    const photos = await desk.look((store) => store.files.list('site', sites[0]?.id ?? 0))
    expect(photos).toMatchObject([{ name: 'gate.png', type: 'image/png', bytes: PNG.byteLength }])
    expect(desk.errors).toEqual([])
  })

  test('each form sent twice, as two requests: the second sees what the first got', async () => {
    const desk = await open()
    const first = await desk.answer(run('site add', {}, asLead))
    const sent = await Promise.all([
      desk.answer(submit(first, SITE, asLead)),
      desk.answer(submit(first, { ...SITE, name: 'another' }, asLead)),
    ])
    expect(sent[1]?.reply).toEqual(sent[0]?.reply)
    const [second] = sent
    if (second === undefined) throw new Error('no answer')
    await Promise.all([desk.answer(submit(second, AREA, asLead)), desk.answer(submit(second, AREA, asLead))])
    expect(await desk.written()).toEqual(['Row 5'])
  })

  test('a form that was put away is opened again from its button', async () => {
    const desk = await open()
    const first = await desk.answer(run('site add', {}, asLead))
    expect(await desk.answer(press(first, 'form', asLead))).toMatchObject({ reply: first.reply, number: 1 })
    expect((await desk.answer(submit(first, SITE, asLead))).number).toBe(2)
  })

  test('two people add sites of the same name at the same time: the second has to find another', async () => {
    const desk = await open()
    const other = { by: { ...lead, personKey: 'leo', personName: 'Leo Test' } }
    const add = async (who: typeof asLead) => {
      const first = await desk.answer(run('site add', {}, who))
      return desk.answer(submit(first, SITE, who))
    }
    const [one, two] = [await add(asLead), await add(other)]
    const last = [await desk.answer(submit(one, AREA, asLead)), await desk.answer(submit(two, AREA, other))]
    expect(last.map(({ reply }) => reply.outcome)).toEqual(['answer', 'question'])
    const [, again] = last
    if (again === undefined) throw new Error('no answer')
    expect(again.reply.lines).toEqual([say('site.problem.name-taken', { name: 'Row 5' })])
    const second = await desk.answer(submit(again, { ...SITE, name: 'Row 6' }, other))
    await desk.answer(submit(second, AREA, other))
    expect(await desk.written()).toEqual(['Row 5', 'Row 6'])
  })

  test('only a lead adds sites', async () => {
    const desk = await open()
    expect((await desk.answer(run('site add'))).reply).toMatchObject({ title: say('desk.lead-only') })
  })
})

describe('the process is killed between the two steps', () => {
  const place = sqlitePlace()

  test('what was said so far is there, and the next process goes on with it', async () => {
    const address = await place.address()
    if (address.engine !== 'sqlite') throw new TypeError('this is about a file')
    const killed = startProcess('src/main.ts', [
      'room',
      '--json',
      '--as',
      'lead',
      '--database',
      `sqlite:${address.path}`,
    ])
    killed.stdin.write(`/site add\n${typed(SITE)}\n`)
    await linesOf(killed, 2)
    const ended = new Promise((done) => killed.on('close', done))
    killed.kill('SIGKILL')
    await ended
    expect(existsSync(address.path)).toBe(true)

    const room = await openRoom({ address, as: 'lead' })
    const [turn] = await room.bot.database.db
      .selectFrom('turns')
      .select(['id', 'number'])
      .orderBy('number', 'desc')
      .execute()
    expect(turn?.number).toBe(2)
    const by = { ...lead, crewKey: 'room:demo', personKey: 'odalys', personName: 'Odalys Trennquist' }
    const token = writeToken({ turnId: turn?.id ?? 0, choice: 'form' })
    const done = await room.bot.desk.answer({
      kind: 'submit',
      id: 'later',
      by,
      atMs: Date.now(),
      token,
      fields: AREA,
    })
    expect(done).toMatchObject({ replayed: false, reply: { outcome: 'answer' } })
    const sites = await room.bot.database.db.selectFrom('sites').select('name').execute()
    expect(sites.filter(({ name }) => name === 'Row 5')).toHaveLength(1)
  })
})
