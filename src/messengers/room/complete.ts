import { z } from 'zod'
import type { Bot } from '#src/bot.ts'
import type { Speaker } from '#src/conversation/ask.ts'
import { metaOf } from '#src/desk/parse-options.ts'

/** Completes what stands before the cursor: a command, one of its options, or a name from the crew's book. */
export async function complete(bot: Bot, by: Speaker, line: string): Promise<[string[], string]> {
  if (!line.startsWith('/')) return [[], line]
  const names = [...bot.registry.keys()]
  const typed = line.slice(1)
  const command = names
    .filter((name) => typed === name || typed.startsWith(`${name} `))
    .sort((one, other) => other.length - one.length)[0]
  if (command === undefined)
    return [names.filter((name) => name.startsWith(typed)).map((name) => `/${name} `), line]
  const options = Object.keys(bot.registry.get(command)?.options.shape ?? {})
  const value = /([a-z_]+):"?([^":]*)$/.exec(line)
  if (value?.[1] !== undefined && options.includes(value[1])) {
    const [whole, option, text = ''] = value
    const found = await valuesOf(bot, by, command, option, text)
    return [found.map((one) => `${option}:"${one}" `), whole]
  }
  const word = /\S*$/.exec(line)?.[0] ?? ''
  const left = options.filter((name) => name.startsWith(word) && !line.includes(`${name}:`))
  return [left.map((name) => `${name}:`), word]
}

async function valuesOf(bot: Bot, by: Speaker, command: string, option: string, typed: string) {
  const schema = bot.registry.get(command)?.options.shape[option]
  const inner = schema instanceof z.ZodOptional ? schema.unwrap() : schema
  if (inner instanceof z.ZodEnum) return inner.options.map(String).filter((one) => one.startsWith(typed))
  if (schema === undefined || metaOf(schema).suggest === undefined) return []
  const found = await bot.suggest({ by, command, option, typed, options: {} })
  return found.map((one) => one.value)
}
