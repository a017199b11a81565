import { describe, expect, test } from 'vitest'
import { commands } from '#commands/index.ts'
import type { Param, Text } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import { keyWords } from '#src/identify/words.ts'
import { flattenTyped } from '#src/messengers/discord/escape.ts'
import { renderModal } from '#src/messengers/discord/modal.ts'
import { renderPages } from '#src/messengers/discord/notice.ts'
import { renderMessage } from '#src/messengers/discord/render.ts'
import { type Presented, present } from '#src/messengers/present.ts'
import { plantWords } from '#src/plants.ts'
import { notes } from '#src/reference/facts.ts'
import { buildCatalogue, type WordFile } from '#src/words/catalogue.ts'
import { languages } from '#src/words/languages.ts'
import { readWordFiles } from '#src/words/load.ts'
import { PSEUDO } from '#src/words/pseudo.ts'
import { openRoom } from '#tests/commands/open-room.ts'
import { Findings } from '#tests/discord-loopback/rules/findings.ts'
import { checkMessage } from '#tests/discord-loopback/rules/message.ts'
import { checkModal } from '#tests/discord-loopback/rules/modal.ts'

const files: readonly WordFile[] = [...readWordFiles(), ...plantWords(), ...keyWords()]

/** One reply of the walk, and the line that it answers. */
interface Heard {
  readonly line: string
  readonly answered: Answered
}
const heard: Heard[] = []

/** Every command by its examples, and by its name alone, which asks for whatever it needs. */
test('the walk over all commands meets no error', async () => {
  const room = await openRoom()
  for (const { name, may } of commands) {
    const typing = room.as(may === 'lead' ? 'lead' : 'bex')
    for (const line of [...(notes[name]?.examples ?? []), `/${name}`])
      heard.push({ line, answered: (await typing(line)).shown.answered })
  }
  expect(room.errors).toEqual([])
  expect(heard.length).toBeGreaterThan(commands.length)
}, 240_000)

/** The reply without what people typed and what is a name or a date: what is left are our own words. */
function onlyOurWords(answered: Answered): Answered {
  return { ...answered, reply: strip(answered.reply) as Answered['reply'] }
}

function strip(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(strip)
  if (typeof value !== 'object' || value === null) return value
  if ('say' in value) return stripText(value as Text)
  return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, strip(one)]))
}

function stripText({ say, with: given }: Text): Text {
  if (given === undefined) return { say }
  return {
    say,
    with: Object.fromEntries(Object.entries(given).map(([name, one]) => [name, stripParam(one)])),
  }
}

function stripParam(param: Param): Param {
  if (typeof param === 'string') return ''
  if (typeof param === 'number' || 'value' in param) return param
  if ('say' in param) return stripText(param)
  if ('all' in param) return { ...param, all: param.all.map(stripParam) }
  return { literal: '' }
}

function wordsOf(one: Presented): string[] {
  return [
    one.word,
    one.title,
    one.standing,
    ...one.lines,
    ...one.working,
    ...one.safety.map(({ text }) => text),
    ...one.choices.flatMap(({ label, hint }) => [label, hint ?? '']),
    ...(one.form === null
      ? []
      : [
          one.form.title,
          one.form.open,
          ...one.form.fields.flatMap(({ label, hint }) => [label, hint ?? '']),
        ]),
  ].filter((text) => text !== '')
}

describe('the pseudo-language, two fifths longer than English', () => {
  const words = buildCatalogue(files)

  test('every word of every reply has gone through the catalogue', () => {
    const bare = heard.flatMap(({ line, answered }) => {
      const one = present(words, onlyOurWords(answered), { locale: PSEUDO, escape: () => '' })
      return wordsOf(one)
        .filter((text) => /[a-z]{5,}/i.test(text))
        .map((text) => `${line}: ${text}`)
    })
    expect(bare).toEqual([])
  })

  test('nothing overflows what the messenger takes', () => {
    const breaches = heard.flatMap(({ line, answered }) => {
      const longer = { ...answered, language: { person: PSEUDO, crew: PSEUDO } }
      const findings = new Findings()
      for (const shared of [true, false]) check(plainJson(renderMessage(words, longer, { shared })), findings)
      for (const page of renderPages(words, longer, { locale: PSEUDO, mostPages: 6 }))
        check(plainJson(page), findings)
      const one = present(words, longer, { locale: PSEUDO, escape: flattenTyped })
      if (one.form !== null)
        checkModal(plainJson(renderModal(one, one.form, { marks: {}, guild: null })), [], findings)
      return findings.breaches.map(({ path, message }) => `${line}: ${path}: ${message}`)
    })
    expect(breaches).toEqual([])
  })
})

function check(body: unknown, findings: Findings): void {
  checkMessage(body, [], findings, { use: 'reply', fileNames: [] })
}

const plainJson = (body: unknown) => JSON.parse(JSON.stringify(body))

describe('a third language', () => {
  const MARK = '§'
  const third = files
    .filter(({ locale }) => locale === 'en')
    .map(({ name, content }): WordFile => {
      const own = Object.entries(content as Record<string, string>).map(([id, text]) => [
        id,
        id.startsWith('words.') ? text : `${MARK}${text}`,
      ])
      return { locale: 'qq', name, content: Object.fromEntries(own) }
    })
  const words = buildCatalogue([...files, ...third])

  test('needs files only: every sentence of every reply is said in it', () => {
    const plain = heard.flatMap(({ line, answered }) => {
      const one = present(words, onlyOurWords(answered), { locale: 'qq', escape: () => '' })
      return wordsOf(one)
        .filter((text) => /[a-z]{5,}/i.test(text) && !text.includes(MARK))
        .map((text) => `${line}: ${text}`)
    })
    expect(plain).toEqual([])
  })

  test('the languages to choose from are the folders of words', () => {
    expect(languages()).toEqual([
      { id: 'en', name: 'English' },
      { id: 'es', name: 'Español' },
    ])
  })
})
