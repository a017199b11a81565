import { existsSync } from 'node:fs'

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome']

/** Where a Chromium is: what CHROMIUM names, or where Debian puts it; null without one. */
export function chromiumPath(
  environment: Readonly<Record<string, string | undefined>> = process.env,
): string | null {
  const places = environment.CHROMIUM ? [environment.CHROMIUM] : PLACES
  return places.find((place) => existsSync(place)) ?? null
}

/** What a run without Chromium has to say for itself; null when there is nothing to say. */
export function chromiumLeftOut(
  environment: Readonly<Record<string, string | undefined>> = process.env,
): string | null {
  if (chromiumPath(environment) !== null) return null
  return 'Chromium left out: install it (on Debian: apt-get install chromium), or name it in CHROMIUM, to test the practice page in a browser'
}

/** Before the run: says once that the browser part is left out, or stops where it may not be. */
export default function setup(): void {
  const missing = chromiumLeftOut()
  if (missing === null) return
  if (process.env.REQUIRE_CHROMIUM === '1') throw new Error(missing)
  process.stdout.write(`\n${missing}\n\n`)
}
