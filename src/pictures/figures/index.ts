import { auricles } from './auricles.ts'
import { baseColor } from './base-color.ts'
import { collar } from './collar.ts'
import { liguleMm } from './ligule-mm.ts'
import { liguleType } from './ligule-type.ts'
import type { FigureSet } from './pen.ts'
import { sheathMargin, sheathShape } from './sheath.ts'
import { stemSection } from './stem-section.ts'
import { vernation } from './vernation.ts'

/** Every drawn character with its states, by the ids that the key uses. */
export const figures: Readonly<Record<string, FigureSet>> = {
  stem_section: stemSection,
  vernation,
  ligule_type: liguleType,
  ligule_mm: liguleMm,
  auricles,
  collar,
  sheath_shape: sheathShape,
  sheath_margin: sheathMargin,
  base_color: baseColor,
}
