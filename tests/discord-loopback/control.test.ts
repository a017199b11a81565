import { mkdtempSync, readFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { ActionRowBuilder, ButtonBuilder, ButtonStyle, ModalBuilder } from 'discord.js'
import { expect, test } from 'vitest'
import type { DiscordStandIn } from './index.ts'
import { startBot } from './testing/bot.ts'

/** Answers of the control routes, as far as these tests look into them. */
interface Played {
  problem?: string
  nowMs?: number
  message?: { id: string }
  messages?: unknown[]
}

async function control(discord: DiscordStandIn, route: string, body?: object) {
  const response = await fetch(`http://127.0.0.1:${discord.port}/control/${route}`, {
    method: body === undefined ? 'GET' : 'POST',
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  })
  return { status: response.status, body: (await response.json()) as Played }
}

const button = new ButtonBuilder().setCustomId('open').setLabel('Open').setStyle(ButtonStyle.Primary)
const form = new ModalBuilder({
  custom_id: 'f',
  title: 'Note',
  components: [{ type: 18, label: 'Note', component: { type: 4, custom_id: 'note', style: 1 } }],
})

test('another program can play the crew: command, button, form, state', async () => {
  const { discord } = await startBot(
    async (interaction) => {
      if (interaction.isChatInputCommand()) {
        await interaction.deferReply()
        await interaction.editReply({
          content: 'mix',
          components: [new ActionRowBuilder<ButtonBuilder>().addComponents(button)],
        })
      }
      if (interaction.isButton()) await interaction.showModal(form)
      if (interaction.isModalSubmit())
        await interaction.reply({
          content: interaction.fields.getTextInputValue('note'),
          files: [{ attachment: Buffer.from('demo'), name: 'note.txt' }],
        })
    },
    { control: true },
  )
  const run = await control(discord, 'slash', {
    name: 'mix',
    user: 'demo.crew',
    options: { tank: '2 gal' },
    settle: true,
  })
  expect(run).toMatchObject({ status: 200, body: { type: 5, delivered: 1, message: { content: 'mix' } } })
  const opened = await control(discord, 'press', { message: run.body.message?.id, customId: 'open' })
  expect(opened.body).toMatchObject({ type: 9, data: { title: 'Note' } })
  const sent = await control(discord, 'modal', { customId: 'f', fields: { note: 'wet lawn' } })
  expect(sent.body).toMatchObject({
    message: { content: 'wet lawn' },
    files: [{ name: 'note.txt', sizeBytes: 4, base64: Buffer.from('demo').toString('base64') }],
  })
  const state = await control(discord, 'state')
  expect(state.body).toMatchObject({ violations: [], unexpected: [], counts: { identifies: 1 } })
  expect(state.body.messages).toHaveLength(2)
})

test('what cannot be done is told in a sentence', async () => {
  const { discord } = await startBot(() => {}, { control: true, unregistered: 'refuse' })
  expect(await control(discord, 'slash', { name: 'mix' })).toEqual({
    status: 422,
    body: { problem: 'Cannot run "/mix": no such command is registered' },
  })
  expect((await control(discord, 'slash', { nom: 'mix' })).body.problem).toContain('nom')
  expect((await control(discord, 'nothing', {})).status).toBe(404)
})

test('time and gateway are in the player’s hands', async () => {
  const { discord } = await startBot(() => {}, { control: true })
  const before = discord.clock.nowMs()
  expect((await control(discord, 'clock', { advanceMs: 60_000 })).body.nowMs).toBeGreaterThanOrEqual(
    before + 60_000,
  )
  await control(discord, 'gateway', { act: 'op7' })
  await expect.poll(() => discord.counts.resumes, { timeout: 3000 }).toBe(1)
})

test('without being asked for, the control routes are not there', async () => {
  const { discord } = await startBot(() => {})
  expect((await control(discord, 'state')).status).toBe(404)
})

test('every request body is written to a file: method, route, body, files', async () => {
  const bodiesFile = path.join(mkdtempSync(path.join(tmpdir(), 'bodies-')), 'out.jsonl')
  const { discord } = await startBot(
    async (interaction) => {
      if (interaction.isChatInputCommand())
        await interaction.reply({ content: 'ok', files: [{ attachment: Buffer.from('abc'), name: 'a.txt' }] })
    },
    { bodiesFile },
  )
  await discord.slash({ name: 'mix' }).firstResponse()
  const lines = readFileSync(bodiesFile, 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as unknown)
  expect(lines).toEqual([
    expect.objectContaining({
      method: 'POST',
      route: '/interactions/{interaction_id}/{interaction_token}/callback',
      status: expect.any(Number),
      body: { type: 4, data: expect.objectContaining({ content: 'ok' }) },
      files: [{ name: 'a.txt', sizeBytes: 3, contentType: expect.any(String) }],
    }),
  ])
})
