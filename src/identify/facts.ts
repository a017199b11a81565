import type { Fact } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Standing } from '#src/key/index.ts'
import { taxonById } from '#src/plants.ts'
import { sayPart, sayPlant } from './words.ts'

/** More names than these are of no use to anybody. */
const LISTED = 25

/**
 * What scripts read of an answer. `result`: weed, own-turf or hold. `taxon`: the scientific name of what was named,
 * `group` all names that it stands for. `remaining`: what is still possible, the likeliest first.
 * `question`: the character that is asked next.
 */
export function factsOf(
  standing: Standing,
  { question, walk }: { readonly question?: string; readonly walk: number | null },
): Fact[] {
  const { result, taxon, remaining } = standing
  const listed = remaining.slice(0, LISTED)
  return [
    { name: 'result', value: result, text: say(`identify.result.${result}`) },
    ...(taxon === undefined || result === 'hold' ? [] : [{ name: 'taxon', value: taxon.scientificName }]),
    ...(taxon?.group === undefined || result === 'hold'
      ? []
      : [{ name: 'group', value: taxon.members.map((one) => one.scientificName).join('; ') }]),
    {
      name: 'remaining',
      value: listed
        .map(({ id }) => `${taxonById(id)?.names.en} (${taxonById(id)?.scientificName})`)
        .join('; '),
      text: say('identify.remaining', {
        count: remaining.length,
        plants: { all: listed.map(({ id }) => sayPlant(id)) },
      }),
    },
    { name: 'remaining_count', value: remaining.length },
    ...(question === undefined ? [] : [{ name: 'question', value: question, text: sayPart(question) }]),
    ...(walk === null ? [] : [{ name: 'walk', value: walk }]),
  ]
}
