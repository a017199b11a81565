import { type Attachment, type Reply, reply } from '#src/conversation/reply.ts'
import { type Param, say, type Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { keptPicture } from '#src/ground/kept-picture.ts'
import type { Area, Site } from '#src/store/sites.ts'
import { areaHistory } from './area-history.ts'
import { mindLines, mindWords } from './mind.ts'

/** Everything to know before stepping onto a property, on one screen, with its picture. */
export async function siteCard(tools: Tools, siteId: number, title?: Text): Promise<Reply> {
  const { store } = tools
  const site = await store.sites.get(siteId)
  if (site === undefined) return reply('refusal', say('site.unknown'), { audience: 'person' })
  const areas = await store.sites.listAreas(siteId)
  const history = await Promise.all(areas.map((area) => areaHistory(area, tools)))
  const photos = await store.files.list('site', siteId)
  return reply('answer', title ?? say('site.card.title', { name: site.name }), {
    lines: [
      say('site.card.address', { address: site.address }),
      ...areas.flatMap((area, at) => [areaLine(area), ...(history[at] ?? [])]),
      ...mindLines(site.details),
      ...elevationLine(site),
    ],
    facts: [
      { name: 'site', value: site.name },
      ...areas.map((area) => ({ name: `area_${area.id}`, value: Number(area.squareFeet), unit: 'ft2' })),
    ],
    files: [
      {
        name: 'site.png',
        alt: say('site.card.picture', { name: site.name, areas: areas.length }),
        from: {
          picture: 'site-card',
          data: {
            name: site.name,
            areas: areas.map((area) => ({
              name: area.name,
              squareFeet: Number(area.squareFeet),
              turfs: area.details.turfs.map((id) => ({ say: `plant.${id}` })),
            })),
            mind: mindWords(site.details),
          },
        },
      },
      ...areas.flatMap((area) => drawingOf(area)),
      ...photos.map((photo, at) => ({
        name: `photo-${at + 1}.${photo.type.split('/').at(-1)}`,
        alt: say('site.card.photo', { name: site.name }),
        from: { blob: photo.blob },
      })),
    ],
    safety: { about: ['bystanders', 'water'] },
  })
}

/** The height above the sea, where it is not that of the crew. */
function elevationLine({ details: { elevation } }: Site): Text[] {
  return elevation === null ? [] : [say('setup.elevation', { elevation })]
}

/** What was measured of an area, where it was measured here. */
function drawingOf({ name, squareFeet, details: { measured } }: Area): Attachment[] {
  if (measured === undefined) return []
  const size = { value: squareFeet, unit: 'ft2' } as const
  return [keptPicture(measured, size, name)]
}

export function areaLine(area: Area): Text {
  return say('site.card.area', {
    name: area.name,
    size: { value: area.squareFeet, unit: 'ft2' },
    turfs: turfList(area),
    use: area.details.use === '' ? 'lawn' : area.details.use,
  })
}

/** The grasses of an area, an overseed while it lives among them; or that nobody has said. */
export function turfList(area: Area): Param {
  const ids = [...area.details.turfs, ...(area.details.overseed ? [area.details.overseed.turf] : [])]
  if (ids.length === 0) return say('area.turf-unknown')
  return { all: ids.map((id) => say(`plant.${id}`)), join: 'and' }
}
