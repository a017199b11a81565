import type { Platform } from '../platform.ts'

/** Everything a player needs to know: who is there, what is registered, what was said, what went wrong. */
export function describeState({ world, commands, messages, gateway, ledger, clock }: Platform) {
  return {
    nowMs: clock.nowMs(),
    applicationId: world.applicationId,
    users: [...world.users.values()].map(({ id, name, locale }) => ({ id, name, locale })),
    guilds: [...world.guilds.values()].map((guild) => ({
      id: guild.id,
      name: guild.name,
      channels: guild.channels.map(({ id, name }) => ({ id, name })),
      roles: guild.roles.map(({ id, name }) => ({ id, name })),
      members: [...guild.members.values()].map(({ user, roles }) => ({
        user: user.name,
        roles: roles.map((r) => r.name),
      })),
      commands: commands.list(guild.id),
    })),
    commands: commands.list(''),
    sessions: [...gateway.sessions.values()].map(({ shard, seq, connection }) => ({
      shard,
      seq,
      live: connection !== undefined,
    })),
    messages: [...messages.stored.values()].map(({ object, onlyFor }) => ({
      onlyFor: onlyFor ?? null,
      message: object,
    })),
    counts: ledger.counts,
    requests: Object.fromEntries(ledger.byRoute),
    violations: ledger.violations,
    warnings: ledger.warnings,
    unexpected: ledger.unexpected,
  }
}
