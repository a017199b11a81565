/** A label that wants to stand at a height and takes some room. */
export interface Standing {
  readonly middle: number
  readonly height: number
}

/**
 * Middles at which labels stand without touching, in the order of their wishes, as near to them as one push down and
 * one push up allow. With less room than they need they keep their order and run over the top.
 */
export function spreadApart(
  labels: readonly Standing[],
  room: { readonly top: number; readonly bottom: number },
): readonly number[] {
  const order = labels.map((label, at) => ({ label, at })).sort((a, b) => a.label.middle - b.label.middle)
  const tops: number[] = []
  let free = room.top
  for (const { label } of order) {
    const top = Math.max(label.middle - label.height / 2, free)
    tops.push(top)
    free = top + label.height
  }
  let floor = room.bottom
  for (let at = order.length - 1; at >= 0; at -= 1) {
    const height = order[at]?.label.height ?? 0
    tops[at] = Math.min(tops[at] ?? 0, floor - height)
    floor = tops[at] ?? floor
  }
  const middles = new Array<number>(labels.length).fill(0)
  order.forEach(({ label, at }, rank) => {
    middles[at] = (tops[rank] ?? 0) + label.height / 2
  })
  return middles
}
