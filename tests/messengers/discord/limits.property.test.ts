import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Reply } from '#src/conversation/reply.ts'
import type { Text } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import { flattenTyped } from '#src/messengers/discord/escape.ts'
import { renderModal } from '#src/messengers/discord/modal.ts'
import { renderPages } from '#src/messengers/discord/notice.ts'
import { type FilesShown, type RenderOptions, renderMessage } from '#src/messengers/discord/render.ts'
import { present } from '#src/messengers/present.ts'
import { Findings } from '#tests/discord-loopback/rules/findings.ts'
import { checkMessage } from '#tests/discord-loopback/rules/message.ts'
import { checkModal } from '#tests/discord-loopback/rules/modal.ts'
import { unescaped } from './markup.ts'
import { words } from './rig.ts'
import { textOf } from './seen.ts'

/** What crews, and people who mean no good, may type: any script, markup, mentions, and far too much of it. */
const spice = fc.constantFrom(
  '@everyone',
  '@here',
  '<@123456789012345678>',
  '<@&1>',
  '<#1>',
  '<t:1:R>',
  '</mix:1>',
  '<:a:1>',
  ':smile:',
  '**b**',
  '__u__',
  '~~s~~',
  '||spoiler||',
  '`code`',
  '```\nblock\n```',
  '# big',
  '-# small',
  '> quote',
  '>>> all',
  '- item',
  '1. item',
  '[text](https://demo.example)',
  'https://demo.example/a_b_c',
  'discord.gg/abc',
  '\\',
  '\\\\*',
  '\n',
  '\n\n\n',
  '\u202e',
  '\u200b',
  '👩‍🌾',
  '🇺🇸',
  'é̂̃',
  '草坪',
  'ñandú',
  '½ gal',
  '\ud800',
)
const typed = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 60 }),
  fc.string({ unit: 'binary', maxLength: 60 }),
  fc.array(fc.oneof(spice, fc.lorem({ maxCount: 3 })), { maxLength: 12 }).map((parts) => parts.join(' ')),
  fc.array(spice, { maxLength: 8 }).map((parts) => parts.join('')),
  fc
    .tuple(fc.oneof(spice, fc.constantFrom('a', '草', '*', '.', ' ')), fc.nat(6000))
    .map(([part, n]) => part.repeat(n / part.length)),
)
const text: fc.Arbitrary<Text> = fc.oneof(
  typed.map((said) => ({ say: 'words.as-typed', with: { words: said } })),
  typed.map((said) => ({ say: 'toy.echo', with: { words: said } })),
  fc.constant({ say: 'toy.step', with: { n: 3 } }),
  typed.map((said) => ({ say: 'words.as-typed', with: { words: { literal: said } } })),
)
const optional = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined })
const sparse = (value: object) =>
  Object.fromEntries(Object.entries(value).filter(([, one]) => one !== undefined))

const choice = fc
  .record({
    label: text,
    to: fc.constant({ step: 'x' }),
    hint: optional(text),
    repeat: optional(fc.boolean()),
    who: optional(fc.constantFrom('owner', 'lead', 'crew')),
    look: optional(fc.constantFrom('main', 'plain', 'stop')),
  })
  .map(sparse)
const field = (n: number) =>
  fc
    .record({
      name: fc.constant(`field_${n}`),
      kind: fc.constantFrom('text', 'long-text', 'choice', 'choices', 'file'),
      label: text,
      hint: optional(text),
      required: fc.boolean(),
      value: optional(typed),
      options: optional(
        fc.array(fc.record({ value: fc.oneof(typed, fc.constantFrom('a', 'b')), label: text }), {
          maxLength: 30,
        }),
      ),
      maxLength: optional(fc.integer({ min: -5, max: 9000 })),
    })
    .map(sparse)
const form = fc.integer({ min: 1, max: 5 }).chain((count) =>
  fc.record({
    title: text,
    open: text,
    fields: fc.tuple(...Array.from({ length: count }, (_, n) => field(n))),
    to: fc.constant({ step: 'x' }),
  }),
)
const reply = fc.record({
  outcome: fc.constantFrom('answer', 'heads-up', 'question', 'hold', 'refusal'),
  title: text,
  lines: fc.array(text, { maxLength: 40 }),
  facts: fc.constant([]),
  working: fc.array(text, { maxLength: 40 }),
  choices: fc.array(choice, { maxLength: 25 }),
  form: fc.option(form),
  files: fc.constant([]),
  audience: fc.constantFrom('crew', 'person'),
  safety: fc.record({
    about: fc.constant(['general']),
    label: fc.array(text, { maxLength: 12 }),
    chosen: fc.subarray(['measure.gloves-eyes', 'emergency.call-911', 'emergency.poison-help']),
  }),
}) as fc.Arbitrary<unknown> as fc.Arbitrary<Reply>

const answered = fc
  .record({ reply, id: fc.option(fc.integer({ min: 1, max: Number.MAX_SAFE_INTEGER })), demo: fc.boolean() })
  .map(({ reply: one, id, demo }): Answered => {
    const language = { person: 'es', crew: 'en' }
    return { reply: one, number: id, turnId: id, language, zone: 'America/Chicago', replayed: false, demo }
  })
const files = (count: number): FilesShown => ({
  kind: 'ready',
  files: Array.from({ length: count }, (_, n) => ({
    name: `${n}.${n % 2 === 0 ? 'png' : 'pdf'}`,
    type: n % 2 === 0 ? 'image/png' : 'application/pdf',
    bytes: new Uint8Array(),
    alt: 'x',
  })),
  missing: ['one', 'two'],
})
const options: fc.Arbitrary<RenderOptions> = fc
  .record({
    shared: fc.boolean(),
    guild: fc.option(fc.constant('12345678901234567890')),
    slow: fc.boolean(),
    owner: fc.option(typed),
    quiet: fc.boolean(),
    locale: optional(fc.constantFrom('en', 'es', 'en-XA')),
    files: optional(
      fc.oneof(fc.constant<FilesShown>({ kind: 'coming' }), fc.integer({ min: 0, max: 10 }).map(files)),
    ),
  })
  .map(sparse) as fc.Arbitrary<RenderOptions>

/** Complaints of the platform's rules about a message. */
function complaints(body: unknown, fileNames: readonly string[] = []): string[] {
  const findings = new Findings()
  checkMessage(JSON.parse(JSON.stringify(body)), [], findings, { use: 'reply', fileNames })
  return [...findings.breaches, ...findings.warnings].map((one) => `${one.path}: ${one.message}`)
}

const LONE_SURROGATE = /[\ud800-\udfff]/u
const runs = { numRuns: 150 }

test('whatever an answer holds, its message is within every limit and nothing typed formats or calls', () => {
  fc.assert(
    fc.property(answered, options, (one, how) => {
      const body = renderMessage(words, one, how)
      const names = how.files?.kind === 'ready' ? how.files.files.map((file) => file.name) : []
      expect(complaints(body, names)).toEqual([])
      expect(body.allowed_mentions).toEqual({ parse: [] })
      expect(Buffer.byteLength(textOf(body))).toBeLessThanOrEqual(10_100)
      expect(unescaped(textOf(body))).toEqual([])
      expect(textOf(body)).not.toMatch(LONE_SURROGATE)
    }),
    runs,
  )
})

test('a safety line is never pushed out by a long answer', () => {
  fc.assert(
    fc.property(answered, (one) => {
      const chosen = ['measure.gloves-eyes']
      const safe = { ...one, reply: { ...one.reply, safety: { about: ['general'], chosen } } }
      const body = renderMessage(words, safe, { shared: true })
      expect(textOf(body)).toContain('> Before the cap comes off: gloves and eye protection.')
      expect(textOf(body)).toContain('The label wins.')
    }),
    { numRuns: 60 },
  )
})

test('the whole answer in pages is within every limit, too', () => {
  fc.assert(
    fc.property(answered, fc.constantFrom('en', 'es', 'en-XA'), (one, locale) => {
      for (const page of renderPages(words, one, { locale, mostPages: 6 })) {
        expect(complaints(page)).toEqual([])
        expect(unescaped(textOf(page))).toEqual([])
      }
    }),
    { numRuns: 60 },
  )
})

test('whatever a form holds, its modal is within every limit', () => {
  fc.assert(
    fc.property(answered, fc.constantFrom('en', 'es', 'en-XA'), fc.boolean(), (one, locale, closing) => {
      const presented = present(words, one, { locale, escape: flattenTyped })
      if (presented.form === null) return
      const modal = renderModal(presented, presented.form, {
        marks: { closing, question: true, slow: true, repeat: true },
        guild: '12345678901234567890',
      })
      const findings = new Findings()
      checkModal(JSON.parse(JSON.stringify(modal)), [], findings)
      expect(
        [...findings.breaches, ...findings.warnings].map((each) => `${each.path}: ${each.message}`),
      ).toEqual([])
      expect(unescaped(textOf(modal))).toEqual([])
    }),
    runs,
  )
})
