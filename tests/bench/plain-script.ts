import { rmSync } from 'node:fs'
import path from 'node:path'
import { build } from 'esbuild'
import { projectRoot } from '#src/project.ts'

/** An entry as a script that takes its packages from where they were installed, as a small bot is mostly written. */
export async function plainScript(entry: string): Promise<{ readonly file: string; remove(): void }> {
  const file = path.join(projectRoot(), '.cache', `plain-${path.basename(entry, '.ts')}-${process.pid}.mjs`)
  await build({
    absWorkingDir: projectRoot(),
    entryPoints: [entry],
    outfile: file,
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    target: 'node20',
    logLevel: 'warning',
  })
  return { file, remove: () => rmSync(file, { force: true }) }
}
