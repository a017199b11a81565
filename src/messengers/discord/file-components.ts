import { type APIComponentInContainer, ComponentType } from 'discord.js'
import type { ReadyFile } from './pictures.ts'

/** Types that the platform draws inside a message (Discord developer docs, reference). */
const PICTURES = new Set(['image/png', 'image/jpeg', 'image/webp', 'image/gif'])

/** Pictures in one gallery, everything else as a file to open. Without a component a file would not be seen. */
export function showFiles(files: readonly ReadyFile[]): APIComponentInContainer[] {
  const media = (file: ReadyFile) => ({ url: `attachment://${file.name}` })
  const pictures = files.filter((file) => PICTURES.has(file.type))
  const papers = files.filter((file) => !PICTURES.has(file.type))
  return [
    ...(pictures.length === 0
      ? []
      : [
          {
            type: ComponentType.MediaGallery as const,
            items: pictures.map((file) => ({ media: media(file), description: file.alt })),
          },
        ]),
    ...papers.map((file) => ({ type: ComponentType.File as const, file: media(file) })),
  ]
}
