/** A language made from English: whatever shows without accents never went through the words. */
export const PSEUDO = 'en-XA'

const ACCENTS: Readonly<Record<string, string>> = {
  a: 'á',
  b: 'ƀ',
  c: 'ç',
  d: 'ð',
  e: 'é',
  f: 'ƒ',
  g: 'ĝ',
  h: 'ĥ',
  i: 'î',
  j: 'ĵ',
  k: 'ķ',
  l: 'ļ',
  m: 'ɱ',
  n: 'ñ',
  o: 'ö',
  p: 'þ',
  q: 'ɋ',
  r: 'ŕ',
  s: 'š',
  t: 'ţ',
  u: 'û',
  v: 'ṽ',
  w: 'ŵ',
  x: 'ẋ',
  y: 'ý',
  z: 'ž',
  A: 'Å',
  B: 'Ɓ',
  C: 'Ç',
  D: 'Ð',
  E: 'É',
  F: 'Ƒ',
  G: 'Ĝ',
  H: 'Ĥ',
  I: 'Î',
  J: 'Ĵ',
  K: 'Ķ',
  L: 'Ļ',
  M: 'Ṁ',
  N: 'Ñ',
  O: 'Ö',
  P: 'Þ',
  Q: 'Ɋ',
  R: 'Ŕ',
  S: 'Š',
  T: 'Ţ',
  U: 'Û',
  V: 'Ṽ',
  W: 'Ŵ',
  X: 'Ẋ',
  Y: 'Ý',
  Z: 'Ž',
}

/** How much longer a text may become in translation. */
export const STRETCH_PERCENT = 40

/** Plain text with accents, and longer by two fifths of its letters: room that a translation may need. */
export function stretch(plain: string): string {
  const letters = plain.match(/[a-z]/gi)?.length ?? 0
  const filler = 'öéîáûýöéîá'.repeat(Math.ceil((letters * STRETCH_PERCENT) / 1000))
  const accented = plain.replace(/[a-z]/gi, (letter) => ACCENTS[letter] ?? letter)
  if (letters === 0) return accented
  return accented.replace(/(\s*)$/, `${filler.slice(0, Math.ceil((letters * STRETCH_PERCENT) / 100))}$1`)
}
