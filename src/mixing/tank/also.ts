/** One more product of a tank as it is typed: `Product B`, `Product B @ 0.5 % v/v`, `Product B #line @ 3 pt/acre`. */
export interface Also {
  readonly product: string
  readonly line?: string
  readonly rate?: string
}

const ONE = /^(.*?)(?:\s+#([a-z0-9]+(?:-[a-z0-9]+)*))?\s*(?:@\s*(.+))?$/

/** The products that go into the tank beside the first, parted by `;` or by lines. */
export function readAlso(text: string): Also[] {
  return text
    .split(/[;\n]/)
    .map((one) => one.trim())
    .filter((one) => one !== '')
    .map((one): Also => {
      const [, product = one, line, rate] = ONE.exec(one) ?? []
      return {
        product: product.trim(),
        ...(line === undefined ? {} : { line }),
        ...(rate === undefined ? {} : { rate: rate.trim() }),
      }
    })
}

/** The same text again, with what was answered since. */
export function writeAlso(all: readonly Also[]): string {
  return all
    .map(({ product, line, rate }) =>
      [product, line === undefined ? '' : ` #${line}`, rate === undefined ? '' : ` @ ${rate}`].join(''),
    )
    .join('; ')
}
