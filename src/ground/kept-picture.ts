import type { Attachment } from '#src/conversation/reply.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { AreaDetails } from '#src/store/sites.ts'
import { groundPicture, type NamedShape } from './draw-ground.ts'

const unnamed = (shape: NamedShape['shape']): NamedShape => ({ shape, name: '' })

/** The drawing of what an area was measured as; its pieces had no names that were kept. */
export function keptPicture(
  { pieces, without }: NonNullable<AreaDetails['measured']>,
  size: Quantity,
  area: string,
): Attachment {
  return groundPicture(pieces.map(unnamed), without.map(unnamed), size, area)
}
