/** How long each beat of a timer took, in ms, until something is done: a gap is a time in which nothing else ran. */
export async function beat(parts: {
  readonly everyMs: number
  readonly until: Promise<unknown>
}): Promise<number[]> {
  let done = false
  const end = () => {
    done = true
  }
  parts.until.then(end, end)
  const gaps: number[] = []
  let last = performance.now()
  while (!done) {
    await new Promise((wake) => setTimeout(wake, parts.everyMs))
    const now = performance.now()
    gaps.push(now - last)
    last = now
  }
  return gaps
}
