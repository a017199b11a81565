import { pino } from 'pino'
import { ArgumentError } from './messengers/room/arguments.ts'
import { loadOwnEnvironment } from './project.ts'
import { readSettings, SettingsError } from './settings.ts'
import { WrongDatabase } from './store/migrate.ts'

async function loadCommands() {
  const { commands } = await import('#commands/index.ts')
  return commands
}

/** Reads the settings, opens the store, picks the messenger, runs. */
async function main(args: readonly string[]): Promise<void> {
  loadOwnEnvironment()
  if (args[0] === 'doctor') {
    const { runDoctor } = await import('./doctor.ts')
    process.exitCode = await runDoctor(process.env)
    return
  }
  if (args[0] === 'verify') {
    const { runVerify } = await import('./verify.ts')
    process.exitCode = await runVerify(args.slice(1), process.env)
    return
  }
  if (args[0] === 'rehearse') {
    const { rehearse } = await import('./rehearse.ts')
    await rehearse(loadCommands)
    return
  }
  const settings = readSettings(process.env)
  const log = pino({ level: settings.logLevel, redact: ['token', '*.token'] }, pino.destination(2))
  const reportError = (error: unknown, about: Readonly<Record<string, unknown>>) =>
    log.error({ err: error, ...about }, 'a request met an unexpected error')
  if (args[0] === 'room' || settings.discordToken === null) {
    const { runRoom } = await import('./messengers/room/room.ts')
    const rest = args[0] === 'room' ? args.slice(1) : args
    const commands = await loadCommands()
    await runRoom({ args: rest, settings, commands, reportError, hasPage: args[0] !== 'room' })
    return
  }
  // Each is loaded only when it is wanted: the practice room needs no Discord, and the bot no room nor, to start, any
  // command.
  const { runLive } = await import('./live.ts')
  await runLive({ settings, token: settings.discordToken, loadCommands, log, reportError })
}

main(process.argv.slice(2)).catch((error: unknown) => {
  const expected = [SettingsError, ArgumentError, WrongDatabase].some((kind) => error instanceof kind)
  process.stderr.write(expected ? `${(error as Error).message}\n` : `${(error as Error).stack ?? error}\n`)
  process.exitCode = 1
})
