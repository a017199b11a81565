import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { asTyped, say } from '#src/conversation/text.ts'
import { defineCommand, type Event } from '#src/desk/command.ts'
import { registryOf } from '#src/desk/registry.ts'
import type { WordFile } from '#src/words/catalogue.ts'

/** Invented commands, each showing one thing that a messenger must be able to do. */

const echo = defineCommand({
  name: 'echo',
  may: 'crew',
  options: z.strictObject({
    words: z.string().max(1000).meta({ suggest: 'site' }),
    kind: z.enum(['dry', 'wet']).optional(),
    count: z.int().min(1).max(9).optional(),
  }),
  async start({ words }) {
    return {
      reply: reply('answer', say('toy.echo', { words }), {
        lines: [asTyped(words), say('toy.line')],
        working: [say('toy.step', { n: 1 }), say('toy.step', { n: 2 })],
      }),
    }
  },
})

/** A question in the channel, its answer with one button to press once, one for ever, one for anybody. */
const ask = defineCommand({
  name: 'ask',
  may: 'crew',
  options: z.strictObject({}),
  async start() {
    const choices = ['one', 'two', 'three'].map((id) => ({
      label: say(`toy.${id}`),
      to: { step: 'chosen', value: id },
    }))
    return { reply: reply('question', say('toy.ask'), { choices }), state: {} }
  },
  async next(_state, event: Event) {
    if (event.step === 'again') return { reply: reply('answer', say('toy.again')), state: {} }
    if (event.step === 'poured') return { reply: reply('answer', say('toy.poured')), state: {} }
    return {
      reply: reply('answer', say('toy.chosen', { id: String(event.value) }), {
        choices: [
          { label: say('toy.pour'), to: { step: 'poured' } },
          { label: say('toy.again'), to: { step: 'again' }, repeat: true },
          { label: say('toy.anyone'), to: { step: 'again' }, repeat: true, who: 'crew' },
        ],
      }),
      state: {},
    }
  },
})

const form = (value?: string) => ({
  title: say('toy.form'),
  open: say('common.correct-it'),
  to: { step: 'filled' },
  fields: [
    {
      name: 'amount',
      kind: 'text' as const,
      label: say('toy.amount'),
      required: true,
      ...(value ? { value } : {}),
    },
    {
      name: 'turf',
      kind: 'choice' as const,
      label: say('toy.turf'),
      required: true,
      options: ['a', 'b'].map((id) => ({ value: id, label: say('toy.turf-name', { id }) })),
    },
    { name: 'photo', kind: 'file' as const, label: say('toy.photo'), required: false },
  ],
})

const noteAdd = defineCommand({
  name: 'note add',
  may: 'crew',
  options: z.strictObject({ site: z.string().optional() }),
  async start() {
    return { reply: reply('question', say('toy.form'), { form: form(), audience: 'person' }), state: {} }
  },
  async next(_state, event: Event) {
    const fields = event.kind === 'submit' ? event.fields : {}
    const amount = String(fields.amount ?? '')
    if (!/^\d+$/.test(amount))
      return {
        reply: reply('question', say('common.not-yet'), {
          lines: [say('toy.wrong', { amount })],
          form: form(amount),
          audience: 'person',
        }),
        state: {},
      }
    const photo = Array.isArray(fields.photo) ? fields.photo.length : 0
    return {
      reply: reply('answer', say('toy.noted', { amount, turf: String(fields.turf), photo }), {
        audience: photo > 0 ? 'crew' : 'person',
      }),
      state: {},
    }
  },
})

const noteList = defineCommand({
  name: 'note list',
  may: 'lead',
  options: z.strictObject({}),
  async start() {
    return { reply: reply('answer', say('toy.list'), { audience: 'person' }) }
  },
})

const many = defineCommand({
  name: 'many',
  may: 'crew',
  options: z.strictObject({}),
  async start() {
    const choices = Array.from({ length: 12 }, (_, n) => ({
      label: say('toy.long-choice', { n }),
      hint: say('toy.line'),
      to: { step: 'chosen', value: n },
    }))
    return { reply: reply('question', say('toy.ask'), { choices, audience: 'person' }), state: {} }
  },
  async next(_state, event: Event) {
    return { reply: reply('answer', say('toy.chosen', { id: String(event.value) }), { audience: 'person' }) }
  },
})

const picture = { name: 'toy.png', alt: say('toy.alt'), from: { picture: 'toy', data: {} } }

const chart = defineCommand({
  name: 'chart',
  may: 'crew',
  options: z.strictObject({}),
  async start() {
    return { reply: reply('answer', say('toy.chart'), { files: [picture] }) }
  },
})

const paper = defineCommand({
  name: 'paper',
  may: 'crew',
  slow: true,
  options: z.strictObject({ share: z.boolean().optional() }),
  async start({ share }) {
    return {
      reply: reply('answer', say('toy.chart'), {
        files: [{ ...picture, name: 'toy.pdf' }],
        audience: share === true ? 'crew' : 'person',
      }),
    }
  },
})

const photo = defineCommand({
  name: 'photo',
  may: 'crew',
  slow: true,
  options: z.strictObject({ picture: z.unknown().meta({ file: true }) }),
  async start({ picture: kept }) {
    const { name, bytes } = z.object({ name: z.string(), bytes: z.number() }).parse(kept)
    return { reply: reply('answer', say('toy.photo-kept', { name, bytes }), { audience: 'person' }) }
  },
})

const broken = defineCommand({
  name: 'broken',
  may: 'crew',
  options: z.strictObject({}),
  async start(): Promise<never> {
    throw new Error('a bug, with a secret in it')
  },
})

const lengthy = defineCommand({
  name: 'lengthy',
  may: 'crew',
  options: z.strictObject({ lines: z.int().optional() }),
  async start({ lines: count = 200 }) {
    const lines = Array.from({ length: count }, (_, n) => say('toy.step', { n }))
    return { reply: reply('answer', say('toy.chart'), { lines, working: lines.slice(0, 200) }) }
  },
})

export const toyRegistry = registryOf([
  echo,
  ask,
  noteAdd,
  noteList,
  many,
  chart,
  paper,
  photo,
  broken,
  lengthy,
])

export const toyWords: WordFile[] = [
  {
    locale: 'en',
    name: 'toy.json',
    content: {
      'toy.echo': '2 gal for {words}',
      'toy.line': 'One more line.',
      'toy.step': 'Step {n} of the *working*: 1 < 2.',
      'toy.ask': 'Which one?',
      'toy.one': 'One',
      'toy.two': 'Two',
      'toy.three': 'Three',
      'toy.chosen': 'Chosen: {id}',
      'toy.pour': 'Poured',
      'toy.poured': 'It is poured',
      'toy.again': 'Again',
      'toy.anyone': 'Anyone',
      'toy.form': 'A short form',
      'toy.amount': 'Amount',
      'toy.turf': 'Turf',
      'toy.turf-name': 'Turf {id}',
      'toy.photo': 'Photo',
      'toy.wrong': '"{amount}" is no number',
      'toy.noted': 'Noted {amount} on {turf}, photos: {photo}',
      'toy.list': 'The list',
      'toy.long-choice': 'A choice with quite a long label, number {n}',
      'toy.alt': 'An invented chart',
      'toy.chart': 'A chart',
      'toy.photo-kept': '{name}: {bytes} bytes',
      'command.echo': 'Says it back',
      'command.echo.words': 'What to say',
      'command-group.note': 'Notes',
    },
  },
  {
    locale: 'es',
    name: 'toy.json',
    content: {
      'toy.echo': '2 gal para {words}',
      'toy.line': 'Una línea más.',
      'command.echo': 'Lo repite',
      'command-name.echo': 'eco',
      'option-name.words': 'palabras',
    },
  },
]
