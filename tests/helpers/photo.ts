import sharp from 'sharp'

/** An invented photo that no compression makes small: every pixel is noise, so that its bytes grow with its size. */
export function noisyPhoto(edge: number): Promise<Buffer> {
  const noise = { type: 'gaussian', mean: 128, sigma: 60 } as const
  return sharp({ create: { width: edge, height: edge, channels: 3, background: '#000000', noise } })
    .withExif({ IFD0: { Artist: 'Demo Person Quillfern' } })
    .jpeg({ quality: 95 })
    .toBuffer()
}
