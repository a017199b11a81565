import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { build } from 'esbuild'
import { projectRoot } from '#src/project.ts'

/** What a browser loads beside the page itself. */
export interface Assets {
  readonly script: string
  readonly style: string
}

/** Bundles the browser's part from its sources, so that a fresh clone needs no build. */
export async function bundleAssets(): Promise<Assets> {
  const folder = path.join(projectRoot(), 'src/messengers/room/page/browser')
  const [script, style] = await Promise.all([
    bundle(path.join(folder, 'main.ts')),
    bundle(path.join(folder, 'style.css')),
  ])
  return { script, style }
}

async function bundle(entry: string): Promise<string> {
  const built = await build({
    absWorkingDir: projectRoot(),
    entryPoints: [entry],
    bundle: true,
    write: false,
    minify: true,
    format: 'esm',
    platform: 'browser',
    target: ['chrome109', 'firefox115', 'safari16'],
    legalComments: 'none',
    logLevel: 'silent',
  })
  return built.outputFiles[0]?.text ?? ''
}

/** The mark of the page: a number between two rules. */
export const readIcon = (): Promise<string> =>
  readFile(path.join(projectRoot(), 'src/messengers/room/page/browser/icon.svg'), 'utf8')
