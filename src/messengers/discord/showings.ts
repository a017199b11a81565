/** A message whose pictures are still being drawn. `isReplaced`: it shows something else by now. */
export interface Showing {
  readonly isReplaced: boolean
  end(): void
}

/**
 * Messages that wait for their pictures, by the turn that they show. Whoever presses on before they are drawn changes
 * the message in place, and pictures that come after that would put the earlier answer back over it.
 */
export interface Showings {
  begin(turnId: number | null): Showing
  /** The message of this turn is about to show what a press on it led to. */
  replace(turnId: number): void
}

export function openShowings(): Showings {
  const waiting = new Map<number, Set<{ isReplaced: boolean }>>()
  return {
    begin(turnId) {
      const one = { isReplaced: false }
      if (turnId !== null) waiting.set(turnId, (waiting.get(turnId) ?? new Set()).add(one))
      return {
        get isReplaced() {
          return one.isReplaced
        },
        end() {
          const all = turnId === null ? undefined : waiting.get(turnId)
          all?.delete(one)
          if (turnId !== null && all?.size === 0) waiting.delete(turnId)
        },
      }
    },
    replace(turnId) {
      for (const one of waiting.get(turnId) ?? []) one.isReplaced = true
    },
  }
}
