import type { Tools } from '#src/desk/command.ts'
import { plantGroup } from '#src/key/model.ts'
import type { Day } from '#src/label/day.ts'
import { taxonById } from '#src/plants.ts'
import type { LookPlan } from '#src/recheck/plan.ts'
import { planLooks } from '#src/recheck/schedule.ts'
import { Lifecycle, PlantGroup, type Treated } from '#src/recheck/table.ts'
import type { Application, AppliedProduct, Weed } from './application.ts'
import { crewDaysOf, scheduleOf } from './crew-days.ts'

/** Who is to look, on the days on which they work. */
type Goer = Pick<Tools, 'crew' | 'person'>

/**
 * The looks after an application. Where several weeds were meant, the one that takes longest to judge sets the pace;
 * where several products were in the tank, the longest interval counts.
 * @param seedingOn day on which seed or sod is planned
 */
export function planVisits(application: Application, { crew, person }: Goer, seedingOn?: Day): LookPlan {
  const { treatedOn, products, weeds } = application
  const intervals = products.flatMap(({ entry }) => (entry?.limits.interval ?? []).map(({ days }) => days))
  const plans = treatedOf(weeds, products).map((treated) =>
    planLooks(
      {
        ...treated,
        treatedOn,
        secondMeant: true,
        ...(intervals.length === 0 ? {} : { intervalDays: Math.max(...intervals) }),
        ...(seedingOn === undefined ? {} : { seedingOn }),
      },
      scheduleOf(crew),
      crewDaysOf(crew, person),
    ),
  )
  return plans.reduce((slow, plan) => (plan.judgeFrom > slow.judgeFrom ? plan : slow))
}

function treatedOf(
  weeds: readonly Weed[],
  products: readonly AppliedProduct[],
): readonly [Treated, ...Treated[]] {
  const nonSelective = products.some(({ entry }) => entry?.nonSelective === true)
  const [first = { words: '', taxon: null }, ...others] = weeds
  const treated = ({ taxon }: Weed): Treated => ({ ...natureOf(taxon), nonSelective })
  return [treated(first), ...others.map(treated)]
}

/** Group and life cycle of a plant of the key; a plant that nobody named is unknown. */
function natureOf(taxon: string | null): Pick<Treated, 'group' | 'lifecycles'> {
  const plant = taxon === null ? undefined : taxonById(taxon)
  if (plant === undefined) return { group: 'unknown', lifecycles: [] }
  const cycles = plant.cells.lifecycle
  return {
    group: PlantGroup.safeParse(plantGroup(plant)).data ?? 'unknown',
    lifecycles:
      cycles?.kind === 'states' ? cycles.states.flatMap((one) => Lifecycle.safeParse(one).data ?? []) : [],
  }
}
