/** Numbers that crews write out, as their figures. `a` and `cuarto` stand in {@link QUARTERS} and {@link HALVES} only. */
const WORDS: Readonly<Record<string, string>> = {
  one: '1',
  un: '1',
  una: '1',
  two: '2',
  dos: '2',
  three: '3',
  tres: '3',
  four: '4',
  cuatro: '4',
  five: '5',
  cinco: '5',
  six: '6',
  seis: '6',
  seven: '7',
  siete: '7',
  eight: '8',
  ocho: '8',
  nine: '9',
  nueve: '9',
  ten: '10',
  diez: '10',
  thousand: '1000',
  mil: '1000',
}

const COUNT = `(?:\\d+|${Object.keys(WORDS).join('|')})`
const figureOf = (word: string) => WORDS[word.toLowerCase()] ?? word

/** A quart and a quarter are one word in Spanish: it is a quarter where it is one of something, and open otherwise. */
const QUARTERS = /^(?:(an?|one|una?|three|tres)\s+)?(?:quarters?|cuartos?)\s+(?:of\s+an?|of|de)\s+(?=[a-z])/i
/** `dos y medio galones`, `two and a half gallons`. */
const HALVES = new RegExp(`^(${COUNT})\\s+(?:and\\s+a\\s+half|y\\s+medi[ao])\\s+(?:of\\s+)?(?=[a-z])`, 'i')
/** `2 galones y medio`, `two gallons and a half`. */
const HALF_BEHIND = new RegExp(
  `^(${COUNT})\\s+([a-z]+(?:\\s+[a-z]+)?)\\s+(?:and\\s+a\\s+half|y\\s+medi[ao])$`,
  'i',
)
const WHOLE = new RegExp(`^(${Object.keys(WORDS).join('|')})\\s+(?!(?:quarters?|cuartos?)\\b)(?=[a-z])`, 'i')

/**
 * The text with the number it starts with in figures: `un galon` is `1 galon`, `mil pies cuadrados` is
 * `1000 pies cuadrados`, `2 galones y medio` is `2.5 galones`.
 * @param plain without accents
 */
export function figuresFor(plain: string): string {
  const behind = HALF_BEHIND.exec(plain)
  if (behind !== null) return `${figureOf(behind[1] ?? '')}.5 ${behind[2]}`
  return plain
    .replace(QUARTERS, (_, count: string | undefined) => (/^t/i.test(count ?? '') ? '3/4 ' : '1/4 '))
    .replace(HALVES, (_, count: string) => `${figureOf(count)}.5 `)
    .replace(WHOLE, (_, count: string) => `${figureOf(count)} `)
}
