import { readdirSync } from 'node:fs'
import path from 'node:path'
import { type KeyFile, type KeyFiles, loadKey } from '#src/key/load.ts'
import type { KeyData } from '#src/key/schema.ts'
import { projectRoot, readData } from '#src/project.ts'

/** The data files of the key as texts with their names; a new file among characters or crew words is found by itself. */
export function keyFiles(): KeyFiles {
  return {
    taxa: dataFile('taxa/taxa.csv'),
    characters: jsonFiles('characters'),
    crewWords: jsonFiles('taxa/crew-words'),
    groups: dataFile('taxa/groups.json'),
    lookAlikes: dataFile('taxa/look-alikes.json'),
    commonWeeds: dataFile('taxa/common-weeds.json'),
    sources: dataFile('taxa/sources.json'),
  }
}

/** The key, read from data/. Throws with every problem listed when a file is wrong. */
export function readKey(): KeyData {
  return loadKey(keyFiles())
}

function jsonFiles(folder: string): KeyFile[] {
  return readdirSync(path.join(projectRoot(), 'data', folder))
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => dataFile(`${folder}/${name}`))
}

function dataFile(name: string): KeyFile {
  return { name: `data/${name}`, text: readData(name) }
}
