import { build, type Metafile } from 'esbuild'
import { expect, test } from 'vitest'
import { projectRoot } from '#src/project.ts'

/** Files of our own, and names of packages, that are there once this one has been loaded. */
async function loadedWith(entry: string): Promise<ReadonlySet<string>> {
  const { metafile } = await build({
    absWorkingDir: projectRoot(),
    entryPoints: [entry],
    outdir: 'unwritten',
    write: false,
    metafile: true,
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    logLevel: 'silent',
  })
  const loaded = new Set<string>()
  const follow = (file: string, inputs: Metafile['inputs']) => {
    if (loaded.has(file)) return
    loaded.add(file)
    for (const one of inputs[file]?.imports ?? [])
      if (one.kind === 'import-statement') follow(one.path, inputs)
  }
  follow(entry, metafile.inputs)
  return loaded
}

test('a start on Discord loads what connects and keeps, and nothing that answers', async () => {
  const loaded = await loadedWith('src/live.ts')
  for (const needed of ['src/messengers/discord/client.ts', 'src/store/open.ts', 'discord.js', 'kysely'])
    expect([...loaded]).toContain(needed)
  const answering =
    /^(commands|data)\/|^src\/(answering\.ts|(calculator|conversation|key|label|quantity|record|words|visits)\/)|^mathjs$/
  expect([...loaded].filter((name) => answering.test(name))).toEqual([])
})

test('what a start does not load is loaded with what answers', async () => {
  const loaded = await loadedWith('src/answering.ts')
  for (const needed of ['src/desk/desk.ts', 'src/words/catalogue.ts', 'mathjs'])
    expect([...loaded]).toContain(needed)
})
