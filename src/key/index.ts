export type { AdviceId } from './advice.ts'
export {
  type Assessment,
  assess,
  type Considered,
  consider,
  type NamedTaxon,
  type Standing,
} from './assess.ts'
export { type Comparison, comparisonAnswers, type Found } from './comparison.ts'
export { type KeyFile, type KeyFiles, type KeyProblem, loadKey, parseKey, problemText } from './load.ts'
export type { LookAlikeCheck } from './lookAlikes.ts'
export { findTaxa, type NameMatch, taxaNamed } from './names.ts'
export { nextQuestion, type Question } from './nextQuestion.ts'
export { type Observed, type ObservedProblem, parseObserved } from './observed.ts'
export type { Reason } from './reasons.ts'
export type { Cell, Character, Group, KeyData, LookAlike, Source, State, Taxon, Words } from './schema.ts'
export { DEFAULT_SETTINGS, Settings } from './settings.ts'
export type { HoldReason } from './verdict.ts'
export { Answer, TurfContext, Walk, withAnswer, withoutLast } from './walk.ts'
