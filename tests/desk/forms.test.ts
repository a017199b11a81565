import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import type { FileHandle } from '#src/conversation/ask.ts'
import { say } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import { MOST_FILE_BYTES, takeFilesInto } from '#src/desk/take-files.ts'
import { type Blobs, blobsIn } from '#src/store/blobs.ts'
import { ben, press, run, submit } from '#tests/helpers/asks.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'
import { PNG } from '#tests/helpers/pictures.ts'
import { openTestDesk } from '#tests/helpers/test-desk.ts'

const place = sqlitePlace()
const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-forms-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const valuesOf = ({ reply }: Answered) =>
  Object.fromEntries((reply.form?.fields ?? []).map(({ name, value }) => [name, value]))

const bytesOf: Readonly<Record<string, Uint8Array>> = {
  photo: PNG,
  empty: new Uint8Array(),
  script: Buffer.from('#!/bin/sh\necho'),
}
const handle = (url: string, parts: Partial<FileHandle> = {}): FileHandle => ({
  name: `${url}.png`,
  type: 'image/png',
  bytes: bytesOf[url]?.byteLength ?? 1,
  url,
  ...parts,
})

async function open(blobs: Blobs = blobsIn(folder)) {
  const database = await place.open({ engine: 'sqlite', path: ':memory:' })
  const fetchFile = async ({ url }: FileHandle) => {
    const bytes = bytesOf[url]
    if (bytes === undefined) throw new Error('gone')
    return bytes
  }
  return openTestDesk(database, { takeFiles: takeFilesInto(blobs, fetchFile) })
}

describe('a form', () => {
  test('with one wrong field comes back with everything that was typed, and is then taken', async () => {
    const desk = await open()
    const question = await desk.answer(run('fill'))
    const wrong = await desk.answer(submit(question, { name: 'Row 5', size: 'large' }))
    expect(wrong.reply).toMatchObject({ outcome: 'question', form: { open: say('common.correct-it') } })
    expect(valuesOf(wrong)).toEqual({ name: 'Row 5', size: 'large', photo: undefined })
    const right = await desk.answer(submit(wrong, { name: 'Row 5', size: '6000' }))
    expect(right.reply.outcome).toBe('answer')
    expect(await desk.written()).toEqual(['Row 5'])
  })

  test('sent twice, as different requests, is taken once', async () => {
    const desk = await open()
    const question = await desk.answer(run('fill'))
    const sent = () => submit(question, { name: 'Row 5', size: '6000' })
    const [first, second] = await Promise.all([desk.answer(sent()), desk.answer(sent())])
    expect(second).toMatchObject({ number: first?.number, reply: first?.reply })
    expect(await desk.written()).toEqual(['Row 5'])
  })

  test('opened again is the same answer, and no new number is used', async () => {
    const desk = await open()
    const question = await desk.answer(run('fill'))
    const again = await desk.answer(press(question, 'form'))
    expect(again).toMatchObject({ reply: question.reply, number: question.number })
    expect((await desk.answer(run('sum', { a: 1, b: 1 }))).number).toBe(2)
  })

  test.each([
    ['cannot be fetched', handle('gone'), 'desk.file-failed'],
    ['is empty', handle('empty'), 'desk.file-failed'],
    ['is no picture, whatever it is called', handle('script'), 'desk.file-kind'],
    ['says that it is too big', handle('photo', { bytes: MOST_FILE_BYTES + 1 }), 'desk.file-too-big'],
  ])('whose file %s comes back filled in', async (_what, file, problem) => {
    const desk = await open()
    const question = await desk.answer(run('fill'))
    const wrong = await desk.answer(submit(question, { name: 'Row 5', size: '6000', photo: [file] }))
    expect(wrong.reply).toMatchObject({ outcome: 'question', lines: [{ say: problem }] })
    expect(valuesOf(wrong)).toMatchObject({ name: 'Row 5', size: '6000' })
    expect((await desk.answer(submit(wrong, { name: 'Row 5', size: '6000' }))).reply.outcome).toBe('answer')
  })

  test('with something typed under a name that it does not have comes back filled in, and says which it has', async () => {
    const desk = await open()
    const question = await desk.answer(run('fill'))
    const wrong = await desk.answer(submit(question, { name: 'Row 5', size: '6000', sise: '7000' }))
    const allowed = { all: ['name', 'size', 'photo'], join: 'and' as const }
    expect(wrong.reply.lines).toEqual([say('desk.field-unknown', { field: 'sise', allowed })])
    expect(valuesOf(wrong)).toMatchObject({ name: 'Row 5', size: '6000' })
    expect(await desk.written()).toEqual([])
    expect((await desk.answer(submit(wrong, { name: 'Row 5', size: '6000' }))).reply.outcome).toBe('answer')
  })

  test('of another person does not come back to whoever sends it with a bad file', async () => {
    const desk = await open()
    const question = await desk.answer(run('fill'))
    const photo = [handle('gone')]
    const { reply } = await desk.answer(submit(question, { name: 'theirs', photo }, { by: ben }))
    expect(reply).toMatchObject({ outcome: 'refusal', form: null })
  })

  test('that was taken already does not come back for a bad file', async () => {
    const desk = await open()
    const question = await desk.answer(run('fill'))
    await desk.answer(submit(question, { name: 'Row 5', size: '6000' }))
    const again = await desk.answer(submit(question, { name: 'Row 5', photo: [handle('gone')] }))
    expect(again.reply).toMatchObject({ outcome: 'refusal', form: null })
    expect(await desk.written()).toEqual(['Row 5'])
  })

  test('whose photo cannot be kept, on a full disk for instance, comes back too, and somebody is told', async () => {
    const full = { ...blobsIn(folder), keep: () => Promise.reject(new Error('ENOSPC: no space left')) }
    const desk = await open(full)
    const question = await desk.answer(run('fill'))
    const photo = [handle('photo')]
    const wrong = await desk.answer(submit(question, { name: 'Row 5', size: '6000', photo }))
    expect(wrong.reply.lines).toEqual([say('desk.file-failed', { file: { all: ['photo.png'] } })])
    expect(valuesOf(wrong)).toMatchObject({ name: 'Row 5' })
    expect(desk.errors).toHaveLength(1)
  })
})
