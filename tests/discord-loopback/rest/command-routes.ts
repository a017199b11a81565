import { withoutLocalizations } from '../commands-book.ts'
import type { Platform } from '../platform.ts'
import { type Json, listOf } from '../rules/check.ts'
import { checkCommand, checkCommands } from '../rules/command.ts'
import { Findings } from '../rules/findings.ts'
import { type Answer, invalidForm, noContent, ok, refusals } from './answers.ts'
import { objectBody } from './body.ts'
import { type Call, param, type Route } from './call.ts'

/** `scope`: '' for global commands, else the guild's id. */
type ForScope = (call: Call, platform: Platform, scope: string) => Answer

const withScope =
  (handle: ForScope) =>
  (call: Call, platform: Platform): Answer => {
    if (param(call, 'application_id') !== platform.world.applicationId) return refusals.missingAccess()
    const scope = call.params.guild_id ?? ''
    const guild = platform.world.guilds.get(scope)
    if (scope !== '' && (guild === undefined || guild.install === 'user')) return refusals.missingAccess()
    return handle(call, platform, scope)
  }

/** Notes what the rules found; the refusal, if there is one. */
function verdict(call: Call, platform: Platform, findings: Findings): Answer | undefined {
  platform.ledger.note(call.request, findings.breaches, findings.warnings)
  return findings.clean ? undefined : invalidForm(findings)
}

const getAll: ForScope = (call, platform, scope) => {
  const all = platform.commands.list(scope)
  return ok(call.query.get('with_localizations') === 'true' ? all : withoutLocalizations(all))
}

const overwriteAll: ForScope = (call, platform, scope) => {
  const findings = new Findings()
  checkCommands(call.json, findings, scope !== '')
  const refusal = verdict(call, platform, findings)
  if (refusal !== undefined) return refusal
  const bodies = listOf(call.json) as Json[]
  if (platform.commands.overDailyCreates(scope, bodies)) return refusals.tooManyCreates()
  return ok(platform.commands.replaceAll(scope, bodies))
}

const create: ForScope = (call, platform, scope) => {
  const findings = new Findings()
  checkCommand(call.json, [], findings, scope !== '')
  const refusal = verdict(call, platform, findings)
  if (refusal !== undefined) return refusal
  const body = objectBody(call.json)
  if (platform.commands.overDailyCreates(scope, [body])) return refusals.tooManyCreates()
  const known = platform.commands.list(scope).some((each) => each.name === body.name)
  return ok(platform.commands.put(scope, body), known ? 200 : 201)
}

const change: ForScope = (call, platform, scope) => {
  const before = platform.commands.list(scope).find((each) => each.id === param(call, 'command_id'))
  if (before === undefined) return refusals.unknownCommand()
  const {
    id: _id,
    application_id: _app,
    version: _version,
    guild_id: _guild,
    name_localized: _name,
    ...sent
  } = before
  const findings = new Findings()
  checkCommand({ ...sent, ...objectBody(call.json) }, [], findings, scope !== '')
  return (
    verdict(call, platform, findings) ?? ok(platform.commands.change(scope, before.id, objectBody(call.json)))
  )
}

const getOne: ForScope = (call, platform, scope) => {
  const found = platform.commands.list(scope).find((each) => each.id === param(call, 'command_id'))
  return found === undefined ? refusals.unknownCommand() : ok(found)
}

const remove: ForScope = (call, platform, scope) =>
  platform.commands.remove(scope, param(call, 'command_id')) ? noContent : refusals.unknownCommand()

const ALL = [
  '/applications/{application_id}/commands',
  '/applications/{application_id}/guilds/{guild_id}/commands',
]

export const commandRoutes: Route[] = ALL.flatMap((template): Route[] => [
  { method: 'GET', template, bot: true, handle: withScope(getAll) },
  { method: 'PUT', template, bot: true, handle: withScope(overwriteAll) },
  { method: 'POST', template, bot: true, handle: withScope(create) },
  { method: 'GET', template: `${template}/{command_id}`, bot: true, handle: withScope(getOne) },
  { method: 'PATCH', template: `${template}/{command_id}`, bot: true, handle: withScope(change) },
  { method: 'DELETE', template: `${template}/{command_id}`, bot: true, handle: withScope(remove) },
])
