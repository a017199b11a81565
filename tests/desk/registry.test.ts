import { expect, test, vi } from 'vitest'
import { z } from 'zod'
import { type Command, defineCommand } from '#src/desk/command.ts'
import { laterCommands } from '#src/desk/registry.ts'

const command = (name: string): Command =>
  defineCommand({
    name,
    options: z.strictObject({}),
    may: 'crew',
    start: () => Promise.reject(new Error('not asked')),
  })

test('commands are loaded once, when the first is asked for', async () => {
  const load = vi.fn(async () => [command('mix'), command('jar')])
  const later = laterCommands(load)
  expect(load).not.toHaveBeenCalled()
  const [mix, none, all] = await Promise.all([later.get('mix'), later.get('spread'), later.all()])
  expect([mix?.name, none, [...all.keys()]]).toEqual(['mix', undefined, ['mix', 'jar']])
  expect(load).toHaveBeenCalledTimes(1)
})

test('whoever asks hears why they cannot be loaded, and the next one tries again', async () => {
  const load = vi.fn(async () => [command('mix')]).mockRejectedValueOnce(new Error('no such file'))
  const later = laterCommands(load)
  await expect(later.get('mix')).rejects.toThrow('no such file')
  expect((await later.get('mix'))?.name).toBe('mix')
})
