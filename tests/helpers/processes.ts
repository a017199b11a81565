import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { onTestFinished } from 'vitest'
import { projectRoot } from '#src/project.ts'

/** Starts a TypeScript file of this project as a process; neither it nor its temporary files outlive the test. */
export function startProcess(entry: string, args: readonly string[]): ChildProcessWithoutNullStreams {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-process-'))
  const child = spawn(process.execPath, ['src/launch.mjs', entry, ...args], {
    cwd: projectRoot(),
    env: { ...process.env, TMPDIR: folder },
  })
  onTestFinished(() => {
    child.kill('SIGKILL')
    rmSync(folder, { recursive: true, force: true })
  })
  return child
}

/** Everything that a process writes, and how it ended. */
export async function resultOf(child: ChildProcessWithoutNullStreams) {
  const read = async (stream: AsyncIterable<Buffer>) => {
    const pieces: Buffer[] = []
    for await (const piece of stream) pieces.push(piece)
    return Buffer.concat(pieces).toString()
  }
  const ended = new Promise<number | null>((done) => child.on('close', done))
  const [output, errors, status] = await Promise.all([read(child.stdout), read(child.stderr), ended])
  return { output, errors, status }
}

/** Resolves when the process has written this many lines. */
export async function linesOf(child: ChildProcessWithoutNullStreams, count: number): Promise<string[]> {
  let text = ''
  for await (const piece of child.stdout) {
    text += (piece as Buffer).toString()
    const lines = text.split('\n').slice(0, -1)
    if (lines.length >= count) return lines
  }
  throw new Error(`Cannot read ${count} lines: the process ended after ${JSON.stringify(text)}`)
}
