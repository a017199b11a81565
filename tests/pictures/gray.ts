import sharp from 'sharp'
import { FIGURE_SIDE } from '#src/pictures/figures/pen.ts'
import { type FigureName, placeFigure } from '#src/pictures/figures/place.ts'
import { renderPng } from '#src/pictures/render.ts'
import { el, svgRoot, writeSvg } from '#src/pictures/svg.ts'
import { type ThemeName, themes } from '#src/pictures/theme.ts'

/** Figures are compared at the smallest size that they are shown in, in pixels. */
export const GRAY_SIDE = 160

/** A figure as gray pixels, 0 to 255, without any color. */
export async function grayFigure(name: FigureName, themeName: ThemeName): Promise<Uint8Array> {
  const theme = themes[themeName]
  const svg = svgRoot(FIGURE_SIDE, FIGURE_SIDE, [
    el('rect', { width: FIGURE_SIDE, height: FIGURE_SIDE, fill: theme.paper }),
    placeFigure(name, theme, [0, 0], FIGURE_SIDE),
  ])
  const png = await renderPng(writeSvg(svg), { widthPx: GRAY_SIDE })
  return new Uint8Array(await sharp(png).flatten().grayscale().raw().toBuffer())
}

/** Share of the pixels that differ by more than a sixth of the whole range. */
export function differingShare(one: Uint8Array, other: Uint8Array): number {
  const different = one.reduce((sum, value, at) => sum + (Math.abs(value - (other[at] ?? 0)) > 40 ? 1 : 0), 0)
  return different / one.length
}
