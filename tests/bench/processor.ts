import { readdirSync, readFileSync } from 'node:fs'

/** Linux counts processor time in hundredths of a second (proc(5): USER_HZ). */
const TICK_MS = 10

/** Processor time that a process has taken so far, ms; null where the system has no /proc. */
export function processorMs(pid: number): number | null {
  return statOf(pid)?.processorMs ?? null
}

/** What all processes of this name have taken so far, ms. Those that have ended are not in it. */
export function processorMsOfAll(name: string): number | null {
  try {
    return readdirSync('/proc')
      .filter((entry) => /^\d+$/.test(entry))
      .map((entry) => statOf(Number(entry)))
      .reduce((sum, stat) => sum + (stat?.name === name ? stat.processorMs : 0), 0)
  } catch {
    return null
  }
}

/** Some process of the list may have ended since. */
function statOf(pid: number): { readonly name: string; readonly processorMs: number } | null {
  try {
    const [, name = '', rest = ''] =
      /^\d+ \((.*)\) (.*)$/s.exec(readFileSync(`/proc/${pid}/stat`, 'utf8')) ?? []
    // Counted from the state, which is the third field: 14 is time in the program, 15 time in the system for it.
    const fields = rest.split(' ')
    return { name, processorMs: (Number(fields[11]) + Number(fields[12])) * TICK_MS }
  } catch {
    return null
  }
}
