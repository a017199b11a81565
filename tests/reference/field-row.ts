import type { Numeric } from '#src/quantity/big.ts'
import type { RoundingWay } from '#src/quantity/round.ts'
import type { SourceId } from './field-sources.ts'

/** How the published figure stands to ours. */
export type Standing =
  /** The very same number. */
  | { readonly status: 'exact' }
  /** Ours, rounded as the source prints it. */
  | { readonly status: 'rounds'; readonly step: string; readonly way?: RoundingWay; readonly why?: string }
  /** The source took a rough factor; `gap` is ours over theirs, less one, in percent. */
  | { readonly status: 'off'; readonly gap: string; readonly why: string }
  /** The printed figure is a mistake, or one that the source itself warns of. */
  | { readonly status: 'source wrong'; readonly why: string }

export interface Row {
  readonly id: string
  readonly source: SourceId
  readonly given: string
  /** What the source prints, as a bare number of `unit`. */
  readonly published: string
  readonly unit: string
  /** Our figure to four significant digits. */
  readonly ours: string
  readonly standing: Standing
  readonly work: () => Numeric
}

export const exact = { status: 'exact' } as const
export const nearest = (step: string, why?: string): Standing =>
  why === undefined ? { status: 'rounds', step } : { status: 'rounds', step, why }
export const off = (gap: string, why: string) => ({ status: 'off', gap, why }) as const
export const wrong = (why: string) => ({ status: 'source wrong', why }) as const
