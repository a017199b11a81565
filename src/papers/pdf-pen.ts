import { BoundedMap } from '#src/memory/bounded-map.ts'
import { ascentOf, type FontWeight } from '#src/pictures/text/fonts.ts'

/** Where a line stands, and how: its upper left corner from the upper left of the page, and the size of its letters. */
export interface LineAt {
  readonly x: number
  readonly y: number
  readonly size: number
  readonly weight: FontWeight
}

/** Lines that are known by their signs: names of fields, and all that crews write again and again. */
const MOST_LINES = 4000
/** What is longer seldom stands on a paper twice. */
const LONGEST_KNOWN = 120

/** A line as the document holds it, apart from its place and size. */
interface Signs {
  /** Name of the typeface in the document, and what a page lists it with. */
  readonly font: string
  readonly listed: unknown
  /** The signs of its letters, `[<…> 0] TJ`. */
  readonly shown: string
}

/** Writes lines of text to the pages of a document, whose commands all pass through here. */
export interface Pen {
  write(line: string, at: LineAt, strike?: boolean): void
  /** Puts on its page what was written since: before the page is turned, and before the document ends. */
  lift(): void
}

/**
 * The library measures each line three times and looks up the sign of each of its letters; here a line that was written
 * before is written with the signs that the library found for it. Only what comes out the very same is known: on its
 * first writing a line is put together here too, and held against what the library wrote.
 * @param fonts paths of the typeface's files
 */
export function penOf(doc: PDFKit.PDFDocument, fonts: Readonly<Record<FontWeight, string>>): Pen {
  const known = new BoundedMap<string, Signs>(MOST_LINES)
  // The library would make bytes of each command, a letter at a time.
  let page: string[] = []
  doc.addContent = (command: string) => {
    page.push(command)
    return doc
  }

  function learn(line: string, at: LineAt, strike: boolean): void {
    const before = page.length
    // By their paths: under a name of its own pdfkit would read a font anew each time.
    doc.font(fonts[at.weight]).fontSize(at.size)
    doc.text(line, at.x, at.y, strike ? { lineBreak: false, strike } : { lineBreak: false })
    if (strike || line.length > LONGEST_KNOWN) return
    const written = page.slice(before).join('\n')
    const signs = signsIn(written, doc.page)
    if (signs !== null && lineOf(signs, at, doc.page) === written) known.set(keyOf(line, at), signs)
  }

  return {
    write(line, at, strike = false) {
      const signs = strike ? undefined : known.get(keyOf(line, at))
      if (signs === undefined) learn(line, at, strike)
      else {
        doc.page.fonts[signs.font] ??= signs.listed
        doc.addContent(lineOf(signs, at, doc.page))
      }
    },
    lift() {
      if (page.length > 0) doc.page.write(Buffer.from(`${page.join('\n')}\n`, 'latin1'))
      page = []
    },
  }
}

const keyOf = (line: string, { weight }: LineAt) => `${weight} ${line}`

const TYPEFACE = /^\/(\S+) \S+ Tf$/m
const SHOWN = /^\[.*\] TJ$/m

function signsIn(written: string, page: PDFKit.PDFPage): Signs | null {
  const [font, shown] = [TYPEFACE.exec(written)?.[1], SHOWN.exec(written)?.[0]]
  return font === undefined || shown === undefined ? null : { font, shown, listed: page.fonts[font] }
}

/** The page is measured from above, letters from below: so each line turns it round for itself. */
function lineOf({ font, shown }: Signs, { x, y, size, weight }: LineAt, page: PDFKit.PDFPage): string {
  const height = page.height
  const base = height - y - ascentOf(weight) * size
  return `q
1 0 0 -1 0 ${figure(height)} cm
BT
1 0 0 1 ${figure(x)} ${figure(base)} Tm
/${font} ${figure(size)} Tf
${shown}
ET
Q`
}

/** As finely as the library writes it. */
const figure = (value: number) => Math.round(value * 1e6) / 1e6
