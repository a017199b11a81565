import type { SvgNode } from '#src/pictures/svg.ts'

export interface Bounds {
  readonly left: number
  readonly top: number
  readonly right: number
  readonly bottom: number
}

/** What a drawing covers, strokes included, read back from its elements (straight paths, circles, dots). */
export function boundsOf(nodes: readonly SvgNode[]): Bounds {
  const boxes = nodes.map(boxOf)
  return {
    left: Math.min(...boxes.map((box) => box.left)),
    top: Math.min(...boxes.map((box) => box.top)),
    right: Math.max(...boxes.map((box) => box.right)),
    bottom: Math.max(...boxes.map((box) => box.bottom)),
  }
}

function boxOf(node: SvgNode): Bounds {
  const half = Number(node.attributes['stroke-width'] ?? 0) / 2
  if (node.name === 'circle') {
    const { cx, cy, r } = node.attributes
    const reach = Number(r) + half
    const [x, y] = [Number(cx), Number(cy)]
    return { left: x - reach, top: y - reach, right: x + reach, bottom: y + reach }
  }
  const numbers =
    String(node.attributes.d)
      .replaceAll('h0', '')
      .match(/-?[\d.]+/g)
      ?.map(Number) ?? []
  const xs = numbers.filter((_, at) => at % 2 === 0)
  const ys = numbers.filter((_, at) => at % 2 === 1)
  return {
    left: Math.min(...xs) - half,
    top: Math.min(...ys) - half,
    right: Math.max(...xs) + half,
    bottom: Math.max(...ys) + half,
  }
}
