/** Bundles that were made before, and may be taken again as long as nothing that they were made of has changed. */
import { readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs'
import path from 'node:path'

/** Nobody who has just been told of a bundle has it taken away before they say that they use it. */
const UNUSED_FOR_MS = 60 * 60 * 1000
const USED = 'used-by-'

/** The folder of the bundle that a list names, if every file it was made of is as it was; else null. */
export function freshBundle(list) {
  try {
    const { folder, madeOf } = JSON.parse(readFileSync(list, 'utf8'))
    return madeOf.every(([file, state]) => state === stateOf(file)) ? folder : null
  } catch {
    return null
  }
}

/** @param {readonly string[]} files that the bundle was made of */
export function keepInputs(list, folder, files) {
  const making = `${list}.${process.pid}`
  writeFileSync(making, JSON.stringify({ folder, madeOf: files.map((file) => [file, stateOf(file)]) }))
  renameSync(making, list)
}

function stateOf(file) {
  const found = statSync(file, { throwIfNoEntry: false })
  return found === undefined ? null : `${found.size} ${found.mtimeMs} ${found.ino}`
}

/** Says that this process needs the bundle; gives back what says that it does no longer. Null if it is not there. */
export function inUse(folder) {
  const mark = path.join(folder, `${USED}${process.pid}`)
  try {
    writeFileSync(mark, '')
    return () => rmSync(mark, { force: true })
  } catch {
    return null
  }
}

/** Removes bundles of the same entry that no process uses any longer. */
export function removeUnused(within, current) {
  const name = path.basename(current).replace(/-[0-9a-f]{12}$/, '')
  for (const entry of readdirSync(within)) {
    const folder = path.join(within, entry)
    if (folder === current || !new RegExp(`^${name}-[0-9a-f]{12}$`).test(entry)) continue
    try {
      const isYoung = Date.now() - statSync(folder).mtimeMs < UNUSED_FOR_MS
      if (!isYoung && !readdirSync(folder).some(isUsed)) rmSync(folder, { recursive: true, force: true })
    } catch {
      // Another process that starts now removes it too. What is left over is no reason not to start.
    }
  }
}

function isUsed(name) {
  if (!name.startsWith(USED)) return false
  try {
    return process.kill(Number(name.slice(USED.length)), 0)
  } catch (error) {
    // It lives, and belongs to somebody else.
    return error.code === 'EPERM'
  }
}
