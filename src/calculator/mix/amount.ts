import { big } from '#src/quantity/big.ts'
import type { AmountUnit } from '#src/quantity/units.ts'
import type { Count } from '../rate/measure.ts'
import type { Dose } from './dose.ts'
import type { MeasuredAmount } from './outcome.ts'
import { productAmount } from './strength.ts'
import { countFillings } from './tool.ts'

/** A measured dose in the units that people see. */
export function describeAmount(
  { exact, measured, tool }: Dose,
  count: Count,
  unit: AmountUnit,
): MeasuredAmount {
  return {
    measured: productAmount(measured, count, tool?.unit ?? unit),
    inRateUnit: productAmount(measured, count, unit),
    exact: productAmount(exact, count, unit),
    tool: tool?.tool,
    scoops: tool?.isScooped ? big(measured.div(tool.step)).round().toNumber() : undefined,
    fillings: tool ? countFillings(tool, measured) : 1,
  }
}
