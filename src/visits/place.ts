import { type Param, say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { Area, Site } from '#src/store/sites.ts'

/** Where looks are taken, as far as it is known and still on the lists. */
export interface LookPlace {
  readonly site: Site | null
  readonly area: Area | null
}

export async function placeOf(
  { siteId, areaId }: { readonly siteId: number | null; readonly areaId: number | null },
  { store }: Pick<Tools, 'store'>,
): Promise<LookPlace> {
  const site = siteId === null ? undefined : await store.sites.get(siteId)
  const area = areaId === null ? undefined : await store.sites.getArea(areaId)
  return { site: site ?? null, area: area ?? null }
}

/** "Ospelwick School, Soccer field". */
export function sayPlace({ site, area }: LookPlace): Param {
  if (site === null) return area === null ? say('visits.place-unknown') : area.name
  return area === null ? site.name : say('visits.place', { site: site.name, area: area.name })
}
