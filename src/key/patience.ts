import { checkTurf } from './guard.ts'
import type { Model } from './model.ts'
import type { Posterior } from './posterior.ts'
import { isGone } from './question.ts'
import { leading, shareOf, type Unit, unitsOf } from './units.ts'
import { novelNear } from './verdict.ts'
import type { Walk } from './walk.ts'

/**
 * Whether the questions that are left can still end the hold: what is missing for the leading name (or for the lawn's
 * own grass), in log odds, is no more than that many good answers give. Without this every hold costs the whole walk.
 * Where head or flower is gone the answers that are left give less, and waiting for it gives more.
 */
export function canStillEnd(
  model: Model,
  { posterior, walk }: { readonly posterior: Posterior; readonly walk: Walk },
  questionsLeft: number,
): boolean {
  if (questionsLeft <= 0) return false
  const { gainPerQuestion, gainWithoutHead } = model.settings
  const gain = isGone('head', walk) || isGone('flower', walk) ? gainWithoutHead : gainPerQuestion
  return missingForName(model, posterior) <= questionsLeft * gain
}

/** Log odds still missing: of the name among the plants of the data, over its unknown relative and over each turf. */
function missingForName(model: Model, posterior: Posterior): number {
  const { settings } = model
  const top = leading(posterior.share)
  if (posterior.turfKnown && posterior.guarded.includes(top)) {
    return logit(settings.ownShare) - logit(shareOf({ members: posterior.guarded }, posterior.share))
  }
  const unit = unitsOf(model, top, posterior).at(-1) ?? { members: [top] }
  const share = shareOf(unit, posterior.share)
  const among = share / Math.max(1 - posterior.novelTotal, 1e-9)
  const overNovel = share / Math.max(novelNear(unit, posterior), 1e-12)
  return (
    Math.max(0, logit(settings.nameShare) - logit(among)) +
    Math.max(0, Math.log(settings.nameOverNovel) - Math.log(overNovel)) +
    missingAgainstTurf(model, posterior, unit)
  )
}

/** A turf that is not ruled out takes one good answer at least, whatever the odds. */
function missingAgainstTurf(model: Model, posterior: Posterior, unit: Unit): number {
  return posterior.guarded
    .filter((turf) => !unit.members.includes(turf))
    .map((turf) => checkTurf(model, posterior, unit, turf))
    .reduce((most, check) => (check.ruledOut ? most : Math.max(most, check.missing, 1)), 0)
}

function logit(share: number): number {
  const within = Math.min(Math.max(share, 1e-9), 1 - 1e-9)
  return Math.log(within / (1 - within))
}
