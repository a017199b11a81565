/**
 * True colors of plant parts, for the characters that ask about a color. They never stand alone: each has a pattern
 * of its own in the figure and its word beneath it.
 */
export const hues = {
  white: '#ffffff',
  whitish: '#f1efe2',
  yellow: '#ffd93b',
  straw: '#ecd9a0',
  tan: '#b98a3a',
  brown: '#7a4a22',
  'purple-brown': '#7b3b4f',
  red: '#d8322c',
  pink: '#f59bb9',
  purple: '#8d4fb8',
  blue: '#3f74d8',
  black: '#17130f',
  gray: '#9a9a96',
  green: '#4f9a3c',
  'light-green': '#a9d886',
  'yellow-green': '#cfd84a',
  'apple-green': '#7ccf3f',
  'dark-green': '#1f6b33',
  'blue-green': '#4f9c92',
  'gray-green': '#93a58c',
  'turf-green': '#4f9a3c',
} as const
export type Hue = keyof typeof hues
