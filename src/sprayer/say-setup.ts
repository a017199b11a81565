import { say, type Text } from '#src/conversation/text.ts'

/** A tip or a pressure as it was typed, or that nobody wrote it down. */
export const sayTyped = (typed: string): Text | string =>
  typed === '' ? say('sprayer.not-written-down') : typed

/** Tip and pressure of a sprayer; no line where neither was written down. */
export function saySetup({ tip, pressure }: { readonly tip: string; readonly pressure: string }): Text[] {
  return tip === '' && pressure === ''
    ? []
    : [say('sprayer.setup', { tip: sayTyped(tip), pressure: sayTyped(pressure) })]
}
