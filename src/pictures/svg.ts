/** The few elements that pictures are made of. None of them can point outside the picture. */
export type SvgName =
  | 'svg'
  | 'g'
  | 'path'
  | 'circle'
  | 'ellipse'
  | 'rect'
  | 'line'
  | 'text'
  | 'tspan'
  | 'title'
  | 'desc'

export type SvgValue = string | number

/** One element. Children are elements or plain text; both are escaped when written. */
export interface SvgNode {
  readonly name: SvgName
  readonly attributes: Readonly<Record<string, SvgValue>>
  readonly children: readonly (SvgNode | string)[]
}

/** `el('circle', { cx: 10, cy: 10, r: 4 })` */
export function el(
  name: SvgName,
  attributes: Readonly<Record<string, SvgValue>> = {},
  children: readonly (SvgNode | string)[] = [],
): SvgNode {
  return { name, attributes, children }
}

/** Moves and scales what belongs together. */
export function group(children: readonly SvgNode[], transform?: string): SvgNode {
  return el('g', transform === undefined ? {} : { transform }, children)
}

/** A number as SVG wants it: at most two decimals, so that the same drawing is the same text everywhere. */
export function svgNumber(value: number): string {
  if (!Number.isFinite(value))
    throw new RangeError(`Cannot draw at ${value}: a coordinate is a finite number`)
  const hundredths = Math.round(value * 100)
  // Writing a fraction out takes ten times as long as writing two whole numbers, and a picture has thousands.
  if (!Number.isSafeInteger(hundredths)) return (hundredths / 100).toString()
  const rest = Math.abs(hundredths) % 100
  const whole = (Math.abs(hundredths) - rest) / 100
  const sign = hundredths < 0 ? '-' : ''
  if (rest === 0) return `${sign}${whole}`
  return `${sign}${whole}.${rest % 10 === 0 ? rest / 10 : rest < 10 ? `0${rest}` : rest}`
}

/** Text that is safe inside an element or a quoted attribute; what XML 1.0 does not allow is left out. */
export function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;')
}

/** The whole as text. Attributes keep the order they were given in: same picture, same bytes. */
export function writeSvg(node: SvgNode): string {
  const attributes = Object.entries(node.attributes)
    .map(([name, value]) => ` ${name}="${typeof value === 'number' ? svgNumber(value) : escapeXml(value)}"`)
    .join('')
  if (node.children.length === 0) return `<${node.name}${attributes}/>`
  const inner = node.children.map((child) => (typeof child === 'string' ? escapeXml(child) : writeSvg(child)))
  return `<${node.name}${attributes}>${inner.join('')}</${node.name}>`
}

/** The outermost element, with its own size in units; one unit is one pixel at natural size. */
export function svgRoot(width: number, height: number, children: readonly SvgNode[]): SvgNode {
  return el(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width,
      height,
      viewBox: `0 0 ${svgNumber(width)} ${svgNumber(height)}`,
    },
    children,
  )
}
