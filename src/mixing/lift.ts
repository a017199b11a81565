import { field, textOf } from '#src/conversation/fields.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, FieldValue, Tools } from '#src/desk/command.ts'
import type { Verdict } from '#src/label/verdict.ts'
import type { Person } from '#src/store/people.ts'
import type { MixOptions } from './options.ts'
import { findNamed, type Named } from './resolve.ts'
import { hasLicense } from './situation.ts'

const SHORTEST_REASON = 10

/** A hold can be lifted where there is a product and an area to lift it for. Nobody lifts a refusal. */
export function canBeLifted({ product, area }: Named, verdict: Verdict): boolean {
  return verdict.outcome === 'hold' && product !== null && area !== null
}

/** A lead with a current license, or the deputy whom such a lead has named. */
async function mayLift({ person, isLead, store, today }: Tools): Promise<boolean> {
  if (!isLead) return false
  if (hasLicense(person, today)) return true
  const { deputyOf } = person.settings
  const licensed: Person | undefined = deputyOf === null ? undefined : await store.people.get(deputyOf)
  return licensed !== undefined && hasLicense(licensed, today)
}

export async function askWhyLift(given: MixOptions, tools: Tools, problem?: Text): Promise<Answer> {
  if (!(await mayLift(tools)))
    return { reply: reply('refusal', say('mixing.lift-license'), { audience: 'person' }), state: given }
  return {
    reply: reply('question', say('mixing.lift-why'), {
      lines: problem === undefined ? [] : [problem],
      audience: 'person',
      form: {
        title: say('mixing.lift-title'),
        open: say('common.fill-in'),
        fields: [
          field('mixing.form', 'reason', { kind: 'long-text', required: true, hint: true, maxLength: 500 }),
        ],
        to: { step: 'lift-why' },
      },
      safety: { about: ['records'] },
    }),
    state: given,
  }
}

/** Keeps the reason under the lead's name; null when it was kept. */
export async function keepLift(
  given: MixOptions,
  fields: Readonly<Record<string, FieldValue>>,
  tools: Tools,
): Promise<Answer | null> {
  const reason = textOf(fields, 'reason')
  if (reason.length < SHORTEST_REASON) return askWhyLift(given, tools, say('mixing.lift-short'))
  if (!(await mayLift(tools))) return askWhyLift(given, tools)
  const named = await findNamed(given, tools)
  if (!named.ok) return named.ask
  const { product, area } = named.value
  if (product === null || area === null) return askWhyLift(given, tools)
  await tools.store.holdLifts.add(
    { entryId: product.id, areaId: area.id, day: tools.today, personId: tools.person.id, reason },
    tools.nowMs,
  )
  return null
}

/** Who lifted holds for this product on this area today, and why. */
export async function liftNote({ product, area }: Named, tools: Tools): Promise<Text | null> {
  if (product === null || area === null) return null
  const lift = await tools.store.holdLifts.find(product.id, area.id, tools.today)
  if (lift === undefined) return null
  const lead = await tools.store.people.get(lift.personId)
  return say('mixing.lifted', { person: lead?.name ?? '', reason: lift.reason })
}
