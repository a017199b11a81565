/**
 * The floor: a bare client that says back what it is told. With ECHO_STORE it keeps every request in that file first,
 * as durably as the program keeps its answers.
 */
import { Client, Events } from 'discord.js'
import { Database } from '#src/store/sqlite-engine.ts'

const client = new Client({ intents: [], rest: { api: process.env.DISCORD_API ?? '' } })
const keep = openStore(process.env.ECHO_STORE)

client.once(Events.ClientReady, async ({ application }) => {
  const text = { name: 'text', description: 'What to say back', type: 3, autocomplete: true } as const
  await application.commands.set([{ name: 'echo', description: 'Says it back', options: [text] }])
  process.stdout.write('{"msg":"ready"}\n')
})
client.on(Events.InteractionCreate, async (interaction) => {
  if (interaction.isAutocomplete()) {
    const typed = interaction.options.getFocused()
    await interaction.respond([{ name: typed, value: typed }])
  } else if (interaction.isChatInputCommand()) {
    const text = interaction.options.getString('text') ?? ''
    keep?.(interaction.id, text)
    await interaction.reply({ content: text })
  }
})
process.once('SIGTERM', () => void client.destroy().then(() => process.exit(0)))
await client.login(process.env.DISCORD_TOKEN)

function openStore(file: string | undefined): ((id: string, text: string) => void) | null {
  if (file === undefined) return null
  const db = new Database(file)
  db.pragma('journal_mode = WAL')
  db.pragma('synchronous = FULL')
  db.exec('create table said (id integer primary key, request text not null unique, text text not null)')
  const insert = db.prepare('insert into said (request, text) values (?, ?)')
  return (id, text) => void insert.run(id, text)
}
