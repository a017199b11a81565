import type { Speaker } from '#src/conversation/ask.ts'
import type { Database } from '#src/store/open.ts'

/** Key of the demo crew: no messenger server is called so. */
export const DEMO_CREW_KEY = 'room:demo'

export function demoSpeaker(as: string, locale: string): Speaker {
  return {
    crewKey: DEMO_CREW_KEY,
    crewName: 'Demo crew',
    personKey: as,
    personName: as,
    runsServer: as === 'lead',
    roles: [],
    locale,
    crewLocale: 'en',
    channelKey: 'room',
  }
}

export async function seedDemo(_database: Database, _atMs: number): Promise<void> {}
