import { readdirSync } from 'node:fs'
import path from 'node:path'
import { projectRoot, readData } from '#src/project.ts'
import { buildCatalogue, type Catalogue, type WordFile } from './catalogue.ts'
import { EmergencyCard } from './emergency/card.ts'
import { buildEmergencyFinder, type FindEmergency } from './emergency/find.ts'
import { EmergencyWords } from './emergency/words.ts'
import { SafetyLines } from './safety.ts'

function readJson(name: string): unknown {
  try {
    return JSON.parse(readData(name))
  } catch (cause) {
    throw new Error(`Cannot read data/${name} as JSON`, { cause })
  }
}

function namesIn(folder: string): string[] {
  return readdirSync(path.join(projectRoot(), 'data', folder)).sort()
}

/** The languages: each is a folder below data/words, so a new one needs no change here. */
export function wordFolders(): string[] {
  return namesIn('words').filter((locale) => /^[a-z]{2,3}(-[A-Za-z0-9]+)*$/.test(locale))
}

/** Every file of words of these languages, or those that are wanted. */
export function readWordFiles(isWanted: (name: string) => boolean = () => true): WordFile[] {
  return wordFolders().flatMap((locale) =>
    namesIn(`words/${locale}`)
      .filter((name) => name.endsWith('.json') && isWanted(name))
      .map((name) => ({ locale, name, content: readJson(`words/${locale}/${name}`) })),
  )
}

/** The words of all languages. Throws a CatalogueError that lists everything wrong with them. */
export function loadWords(): Catalogue {
  return buildCatalogue(readWordFiles())
}

/** The safety lines, parsed. Their words are in the catalogue under `safety.<id>`. */
export function loadSafetyLines(): SafetyLines {
  return SafetyLines.parse(readJson('safety/lines.json'))
}

/** Numbers to call and what to do first. */
export function loadEmergencyCard(): EmergencyCard {
  return EmergencyCard.parse(readJson('safety/emergency-card.json'))
}

/** The emergency words of every language together: crews mix them in one sentence. */
export function loadEmergencyFinder(): FindEmergency {
  const files = namesIn('safety/emergency').map((name) =>
    EmergencyWords.parse(readJson(`safety/emergency/${name}`)),
  )
  return buildEmergencyFinder(files)
}
