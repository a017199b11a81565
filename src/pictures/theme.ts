export type ThemeName = 'light' | 'dark'

/**
 * The tones of a picture, as #rrggbb. `ink` draws, `paper` lies behind, `shade` fills surfaces, `quiet` is for
 * lesser text. No tone means anything by itself.
 */
export interface Theme {
  readonly ink: string
  readonly paper: string
  readonly shade: string
  readonly quiet: string
}

export const themes: Readonly<Record<ThemeName, Theme>> = {
  light: { ink: '#1d211b', paper: '#ffffff', shade: '#d3d9cf', quiet: '#454b42' },
  dark: { ink: '#f3f5f0', paper: '#1f2226', shade: '#50565b', quiet: '#c6cbc4' },
}

/** Contrast ratio of two #rrggbb colors, 1 to 21. Source: WCAG 2.2, definition of "contrast ratio". */
export function contrastRatio(one: string, other: string): number {
  const [low = 0, high = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b)
  return (high + 0.05) / (low + 0.05)
}

/** Source: WCAG 2.2, definition of "relative luminance". */
function luminance(color: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((from) => {
    const part = Number.parseInt(color.slice(from, from + 2), 16) / 255
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4
  })
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue
}
