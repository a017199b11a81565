/** One element of an SVG text, read back. */
export interface ReadElement {
  readonly name: string
  readonly attributes: Readonly<Record<string, string>>
}

const TAG = /<(\/?)([a-z]+)((?: [a-zA-Z][\w:-]*="[^"<]*")*)(\/?)>/y

/**
 * Reads SVG text strictly: every tag closed in order, attributes quoted, no bare "<" or "&".
 * @throws Error at the first place that is not well-formed
 */
export function readSvg(svg: string): { readonly elements: readonly ReadElement[]; readonly text: string } {
  const [elements, open]: [ReadElement[], string[]] = [[], []]
  let [at, text] = [0, '']
  while (at < svg.length) {
    if (svg[at] === '<') {
      TAG.lastIndex = at
      const [whole, closing, name = '', attributes = '', single] = TAG.exec(svg) ?? fail(svg, at)
      if (closing === '/') {
        if (open.pop() !== name) fail(svg, at)
      } else {
        elements.push({ name, attributes: readAttributes(attributes) })
        if (single !== '/') open.push(name)
      }
      at += whole.length
    } else {
      const end = svg.indexOf('<', at)
      text += unescapeXml(svg.slice(at, end === -1 ? undefined : end))
      at = end === -1 ? svg.length : end
    }
  }
  if (open.length > 0) fail(svg, at)
  return { elements, text }
}

function readAttributes(text: string): Record<string, string> {
  return Object.fromEntries(
    [...text.matchAll(/([a-zA-Z][\w:-]*)="([^"]*)"/g)].map((match) => [
      match[1] ?? '',
      unescapeXml(match[2] ?? ''),
    ]),
  )
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" }

function unescapeXml(text: string): string {
  return text.replace(/&([^;]*);?/g, (whole, name: string) => ENTITIES[name] ?? fail(whole, 0))
}

function fail(svg: string, at: number): never {
  throw new Error(`Not well-formed at ${at}: ${svg.slice(at, at + 60)}`)
}
