/** Larger than any tank that a crew pulls behind a truck; more is a slip of the finger. */
export const MOST_TANK = { value: '5000', unit: 'gal' } as const
