import { auricles } from './auricles.ts'
import { baseColor } from './base-color.ts'
import { bladeWidth } from './blade-width.ts'
import { branches } from './branches.ts'
import { collar } from './collar.ts'
import { color } from './color.ts'
import { feel } from './feel.ts'
import { flowerColor } from './flower-color.ts'
import { flowerMonths } from './flower-months.ts'
import { plantGroup } from './group.ts'
import { habit } from './habit.ts'
import { hairs } from './hairs.ts'
import { creeping, nodeHairs } from './joints.ts'
import { leafArrangement } from './leaf-arrangement.ts'
import { leafMargin } from './leaf-margin.ts'
import { leafMarks } from './leaf-marks.ts'
import { leafShape } from './leaf-shape.ts'
import { leafStalk } from './leaf-stalk.ts'
import { leafType } from './leaf-type.ts'
import { lifecycle } from './lifecycle.ts'
import { liguleMm } from './ligule-mm.ts'
import { liguleType } from './ligule-type.ts'
import { midrib } from './midrib.ts'
import { milkySap } from './milky-sap.ts'
import type { FigureSet } from './pen.ts'
import { petals } from './petals.ts'
import { season } from './season.ts'
import { seedhead } from './seedhead.ts'
import { seedheadColor } from './seedhead-color.ts'
import { sheathMargin, sheathShape } from './sheath.ts'
import { smell } from './smell.ts'
import { special } from './special.ts'
import { stemSection } from './stem-section.ts'
import { surface } from './surface.ts'
import { texture } from './texture.ts'
import { tip } from './tip.ts'
import { underground } from './underground.ts'
import { vernation } from './vernation.ts'

/** Every drawn character with its states, by the ids that the key uses. */
export const figures: Readonly<Record<string, FigureSet>> = {
  group: plantGroup,
  lifecycle,
  season,
  leaf_arrangement: leafArrangement,
  stem_section: stemSection,
  vernation,
  ligule_type: liguleType,
  ligule_mm: liguleMm,
  auricles,
  collar,
  sheath_shape: sheathShape,
  sheath_margin: sheathMargin,
  base_color: baseColor,
  blade_width_mm: bladeWidth,
  tip,
  midrib,
  hairs,
  color,
  texture,
  surface,
  feel,
  habit,
  underground,
  node_hairs: nodeHairs,
  creeping,
  seedhead,
  seedhead_color: seedheadColor,
  branches,
  flower_months: flowerMonths,
  leaf_type: leafType,
  leaf_shape: leafShape,
  leaf_margin: leafMargin,
  leaf_stalk: leafStalk,
  leaf_marks: leafMarks,
  milky_sap: milkySap,
  smell,
  flower_color: flowerColor,
  petals,
  special,
}
