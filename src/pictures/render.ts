import { createHash } from 'node:crypto'
import { renderAsync } from '@resvg/resvg-js'
import { FONT_FAMILY, fontFiles } from './text/fonts.ts'

/** Pictures kept in memory; a key's question is often drawn for several people in a row. */
const KEPT = 48

const kept = new Map<string, Promise<Uint8Array>>()

/**
 * Draws an SVG text as PNG, off the event loop. The same text and width give the kept picture.
 * @param options.widthPx width of the PNG in pixels; the height follows
 */
export function renderPng(svg: string, options: { readonly widthPx: number }): Promise<Uint8Array> {
  const key = createHash('sha256').update(`${options.widthPx}\n${svg}`).digest('base64')
  const found = kept.get(key)
  const bytes = found ?? draw(svg, options.widthPx)
  kept.delete(key)
  kept.set(key, bytes)
  if (found === undefined) bytes.catch(() => kept.delete(key))
  const oldest = kept.keys().next()
  if (kept.size > KEPT && !oldest.done) kept.delete(oldest.value)
  return bytes
}

async function draw(svg: string, widthPx: number): Promise<Uint8Array> {
  const image = await renderAsync(svg, {
    fitTo: { mode: 'width', value: widthPx },
    font: { loadSystemFonts: false, fontFiles: [...fontFiles()], defaultFontFamily: FONT_FAMILY },
  })
  return new Uint8Array(image.asPng())
}
