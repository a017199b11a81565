/** Rows of a page that stay readable when it is printed, and lines on what is not on the card. */
export const ROWS_A_PAGE = 4
export const LEFT_OFF_A_PAGE = 10
/** Beside so many rows there is room for so many lines. */
const LEFT_OFF_BESIDE: Readonly<Record<number, number>> = { 1: 6, 2: 4, 3: 2 }

export interface CardPage<Row, Line> {
  readonly rows: readonly Row[]
  readonly leftOff: readonly Line[]
}

/** Rows first, a few a page; then what is not on the card, below the last rows where it fits, else on pages of its own. */
export function pagesOf<Row, Line>(rows: readonly Row[], leftOff: readonly Line[]): CardPage<Row, Line>[] {
  const pages: { rows: readonly Row[]; leftOff: readonly Line[] }[] = chunks(rows, ROWS_A_PAGE).map(
    (some) => ({
      rows: some,
      leftOff: [],
    }),
  )
  const last = pages.at(-1)
  if (last !== undefined && leftOff.length <= (LEFT_OFF_BESIDE[last.rows.length] ?? 0)) last.leftOff = leftOff
  else pages.push(...chunks(leftOff, LEFT_OFF_A_PAGE).map((some) => ({ rows: [], leftOff: some })))
  return pages
}

function chunks<T>(all: readonly T[], size: number): T[][] {
  return Array.from({ length: Math.ceil(all.length / size) }, (_, at) =>
    all.slice(at * size, (at + 1) * size),
  )
}
