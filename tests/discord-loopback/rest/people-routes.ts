import type { APIGatewayBotInfo } from 'discord-api-types/v10'
import type { Platform } from '../platform.ts'
import { applicationObject, channelObject, guildObject, memberObject, userObject } from '../world/objects.ts'
import type { WorldGuild } from '../world/world.ts'
import { type Answer, ok, refusals } from './answers.ts'
import { type Call, param, type Route } from './call.ts'

const withGuild =
  (handle: (call: Call, platform: Platform, guild: WorldGuild) => Answer) =>
  (call: Call, platform: Platform): Answer => {
    const guild = platform.world.guilds.get(param(call, 'guild_id'))
    if (guild === undefined) return refusals.unknownGuild()
    return guild.install === 'user' ? refusals.missingAccess() : handle(call, platform, guild)
  }

function getUser(call: Call, platform: Platform): Answer {
  const id = param(call, 'user_id')
  const user = id === platform.world.bot.id ? platform.world.bot : platform.world.users.get(id)
  return user === undefined ? refusals.unknownUser() : ok(userObject(user))
}

function getMember(call: Call, platform: Platform, guild: WorldGuild): Answer {
  const id = param(call, 'user_id')
  if (id === platform.world.bot.id)
    return ok(memberObject({ user: platform.world.bot, roles: [], nick: undefined }))
  const member = guild.members.get(id)
  return member === undefined ? refusals.unknownMember() : ok(memberObject(member))
}

const gatewayBot = (_call: Call, { gateway }: Platform): Answer =>
  ok({
    url: gateway.url,
    shards: gateway.settings.shards,
    session_start_limit: gateway.sessionStartLimit(),
  } satisfies APIGatewayBotInfo)

const application = (_call: Call, { world }: Platform): Answer =>
  ok(applicationObject(world.applicationId, world.users.values().next().value ?? world.bot))

const get = (template: string, handle: Route['handle'], bot = true): Route => ({
  method: 'GET',
  template,
  bot,
  handle,
})

export const peopleRoutes: Route[] = [
  get('/gateway', (_call, { gateway }) => ok({ url: gateway.url }), false),
  get('/gateway/bot', gatewayBot),
  get('/users/@me', (_call, { world }) =>
    ok({ ...userObject(world.bot), mfa_enabled: true, locale: 'en-US', verified: true }),
  ),
  get('/users/@me/guilds', (_call, { world }) =>
    ok(
      [...world.guilds.values()]
        .filter((each) => each.install === 'guild')
        .map(({ id, name, botPermissions }) => ({
          id,
          name,
          icon: null,
          banner: null,
          owner: false,
          // Discord developer docs, resources/user: what the one who asks may do there, by roles alone.
          permissions: botPermissions.toString(),
          features: [],
        })),
    ),
  ),
  get('/users/{user_id}', getUser),
  get('/applications/@me', application),
  get('/oauth2/applications/@me', application),
  get(
    '/guilds/{guild_id}',
    withGuild((_call, _platform, guild) => ok(guildObject(guild))),
  ),
  get(
    '/guilds/{guild_id}/channels',
    withGuild((_call, _platform, guild) => ok(guild.channels.map(channelObject))),
  ),
  get(
    '/guilds/{guild_id}/roles',
    withGuild((_call, _platform, guild) => ok(guildObject(guild).roles)),
  ),
  get('/guilds/{guild_id}/members/{user_id}', withGuild(getMember)),
]
