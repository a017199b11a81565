/** Numbers from 0 to 1 that are the same in every run (mulberry32, a public-domain generator; from memory). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}

const BEGINNINGS =
  'Al Bren Cor Dun El Fen Gar Hol Ing Jas Kel Lor Mar Nor Ol Pen Quin Ros Sal Tor Ul Ven Wes Yar Zel'
const MIDDLES = 'a e i o ber den fer gal ham lin mer nor ras sten ther vin wick'
const ENDS = 'by croft dale field ford gate ham hurst ley mead mont stead ton vale ville wood worth'
const KINDS = 'Court|Park|Row|School|Street|Lane|Green|Fields|Church|Square|Drive|Terrace|Commons|Grounds'

/** That many different invented names, such as a crew gives to its sites: `Corlinhurst Lane 12`. */
export function inventNames(count: number, random: () => number): string[] {
  const one = (from: string, by: string | RegExp = ' ') => {
    const all = from.split(by)
    return all[Math.floor(random() * all.length)] ?? ''
  }
  const names = new Set<string>()
  while (names.size < count) {
    const word = one(BEGINNINGS) + one(MIDDLES) + one(ENDS)
    const number = random() < 0.3 ? ` ${1 + Math.floor(random() * 40)}` : ''
    names.add(`${word} ${one(KINDS, '|')}${number}`)
  }
  return [...names]
}

const LETTERS = 'abcdefghijklmnopqrstuvwxyz'

/** One slip of the finger: a letter too many, too few, another one, or two the wrong way round. */
export function misspell(text: string, random: () => number): string {
  const at = Math.floor(random() * text.length)
  const letter = LETTERS[Math.floor(random() * LETTERS.length)] ?? 'x'
  const [before, after] = [text.slice(0, at), text.slice(at + 1)]
  switch (Math.floor(random() * 4)) {
    case 0:
      return before + letter + text.slice(at)
    case 1:
      return before + after
    case 2:
      return before + letter + after
    default:
      return `${before}${after.slice(0, 1)}${text[at] ?? ''}${after.slice(1)}`
  }
}
