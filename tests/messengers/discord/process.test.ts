import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import path from 'node:path'
import { expect, onTestFinished, test, vi } from 'vitest'
import { projectRoot } from '#src/project.ts'
import { startDiscord } from '#tests/discord-loopback/index.ts'
import { textOf } from './seen.ts'

const echo = { name: 'echo', user: 'demo.crew', channel: 'field', options: { words: 'x' } }

async function startChild() {
  const platform = await startDiscord({ identifyIntervalMs: 0 })
  const child = spawn(process.execPath, ['src/launch.mjs', path.join(import.meta.dirname, 'child.ts')], {
    cwd: projectRoot(),
    env: { ...process.env, DISCORD_API: platform.api, DISCORD_TOKEN: platform.token },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  const output: string[] = []
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (data) => output.push(String(data)))
  onTestFinished(async () => {
    if (child.exitCode === null) child.kill('SIGKILL')
    await platform.stop()
  })
  const isUp = () => expect(platform.platform.commands.list('').length, output.join('')).toBeGreaterThan(0)
  await vi.waitFor(isUp, { timeout: 20_000, interval: 50 })
  return { platform, child, output: () => output.join('') }
}

async function exitOf(child: ChildProcess): Promise<number | null> {
  if (child.exitCode !== null) return child.exitCode
  const [code] = (await once(child, 'exit')) as [number | null]
  return code
}

test('a malformed dispatch does not end the process, and SIGTERM finishes what is in flight', async () => {
  const { platform, child, output } = await startChild()
  const frame = structuredClone(platform.slash(echo).frame) as unknown as Record<string, unknown>
  for (const [at, missing] of ['entitlements', 'data', 'token', 'member', 'channel'].entries()) {
    // Of moments before: an id that is still to come would be taken for that request's own.
    const id = String(BigInt(String(frame.id)) - (BigInt(at + 1) << 22n))
    const broken = { ...frame, id, [missing]: undefined }
    platform.gateway.dispatch('INTERACTION_CREATE' as never, broken, undefined)
  }
  expect(textOf(await platform.slash(echo).message())).toContain('2 gal')
  // The log comes through a pipe of its own, later than the answer on a busy machine.
  await vi.waitFor(() => expect(output()).toContain('nobody was waiting for it'), { timeout: 10_000 })

  const slow = platform.slash({ name: 'paper', user: 'demo.crew', channel: 'field' })
  await slow.firstResponse()
  child.kill('SIGTERM')
  expect(await exitOf(child)).toBe(0)
  expect(slow.edits).toHaveLength(1)
}, 40_000)

test('closed for good, the process ends with an error', async () => {
  const { platform, child, output } = await startChild()
  platform.close(4014)
  expect(await exitOf(child)).toBe(1)
  await vi.waitFor(() => expect(output()).toContain('the connection has ended for good'), { timeout: 10_000 })
}, 40_000)
