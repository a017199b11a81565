import { GatewayCloseCodes, GatewayIntentBits } from 'discord-api-types/v10'
import { isObject, type Json } from '../rules/check.ts'

const KNOWN_INTENTS = Object.values(GatewayIntentBits)
  .filter((bit): bit is GatewayIntentBits => typeof bit === 'number')
  .reduce<number>((all, bit) => all | bit, 0)

/** Granted only on application. Source: Discord developer docs, events/gateway, "Privileged Intents". */
const PRIVILEGED =
  GatewayIntentBits.GuildMembers | GatewayIntentBits.GuildPresences | GatewayIntentBits.MessageContent

export interface Identity {
  shard: readonly [number, number]
  intents: number
}

export interface IdentifyRules {
  token: string
  /** Shards that the bot must have at least. */
  shards: number
  privilegedIntents: boolean
}

export type IdentifyVerdict = { ok: true; identity: Identity } | { ok: false; close: GatewayCloseCodes }

function shardIn(d: Json): readonly [number, number] | undefined {
  if (d.shard === undefined) return [0, 1]
  if (!Array.isArray(d.shard) || d.shard.length !== 2) return undefined
  const [id, count] = d.shard as [number, number]
  return Number.isInteger(id) && Number.isInteger(count) && id >= 0 && id < count ? [id, count] : undefined
}

/** Judges an IDENTIFY. Close codes: Discord developer docs, topics/opcodes-and-status-codes. */
export function judgeIdentify(d: unknown, rules: IdentifyRules): IdentifyVerdict {
  const refuse = (close: GatewayCloseCodes): IdentifyVerdict => ({ ok: false, close })
  if (!isObject(d) || !isObject(d.properties)) return refuse(GatewayCloseCodes.DecodeError)
  if (d.token !== rules.token) return refuse(GatewayCloseCodes.AuthenticationFailed)
  const shard = shardIn(d)
  if (shard === undefined) return refuse(GatewayCloseCodes.InvalidShard)
  if (shard[1] < rules.shards) return refuse(GatewayCloseCodes.ShardingRequired)
  const intents = d.intents
  if (typeof intents !== 'number' || !Number.isInteger(intents) || (intents & ~KNOWN_INTENTS) !== 0)
    return refuse(GatewayCloseCodes.InvalidIntents)
  if ((intents & PRIVILEGED) !== 0 && !rules.privilegedIntents)
    return refuse(GatewayCloseCodes.DisallowedIntents)
  return { ok: true, identity: { shard, intents } }
}
