import { z } from 'zod'
import { withSet } from '#src/conversation/ask-for.ts'
import { textOf } from '#src/conversation/fields.ts'
import { defineCommand, type Event, type Tools } from '#src/desk/command.ts'
import { logMixed } from '#src/logging/log-mixed.ts'
import { noteContents } from '#src/mixing/contents.ts'
import { keepTest } from '#src/mixing/keep-test.ts'
import { askWhyLift } from '#src/mixing/lift.ts'
import { mix } from '#src/mixing/mix.ts'
import { MixOptions } from '#src/mixing/options.ts'
import { notSprayed, Poured, pour } from '#src/mixing/poured.ts'
import { findNamed } from '#src/mixing/resolve.ts'
import { keepTankLift } from '#src/mixing/tank/lift-tank.ts'
import { MixBody } from '#src/store/mixes.ts'

const State = z.strictObject({
  ...MixOptions.shape,
  '@poured': Poured.optional(),
  '@mix': MixBody.optional(),
})

/** How much concentrate for this tank, at this rate, for how heavily this person really sprays. */
export default defineCommand({
  name: 'mix',
  may: 'crew',
  stopsAfterExposure: true,
  options: MixOptions,
  state: State,
  start: (given, tools) => mix(given, tools),
  async next({ '@poured': poured, '@mix': body, ...given }, event, tools) {
    if (event.step === 'poured' && poured !== undefined) return pour(poured, body, tools)
    if (event.step === 'not-sprayed') return notSprayed(event.value, tools)
    if (event.step === 'log' && body !== undefined) return logMixed(body, tools)
    if (event.step === 'output' && event.kind === 'submit') return keepTest(given, event.fields, tools)
    if (event.step === 'lift') return askWhyLift(given, tools)
    if (event.step === 'lift-why' && event.kind === 'submit')
      return (await keepTankLift(given, event.fields, tools)) ?? mix(given, tools)
    return mix(await answered(given, event, tools), tools)
  },
})

/** The question's answer as one more option; what was said of a tank's contents is kept at once. */
async function answered(given: MixOptions, event: Event, tools: Tools): Promise<MixOptions> {
  if (event.kind === 'submit')
    return read(
      withSet(
        given,
        Object.fromEntries(Object.keys(event.fields).map((name) => [name, textOf(event.fields, name)])),
      ),
    )
  const { '@contents': contents, ...set } = (event.value ?? {}) as Record<string, unknown>
  const found = contents === undefined ? null : await findNamed(given, tools)
  if (found?.ok) await noteContents(contents, found.value, tools)
  return read(withSet(given, set))
}

function read(merged: unknown): MixOptions {
  const parsed = MixOptions.safeParse(merged)
  if (parsed.success) return parsed.data
  throw new RangeError('An answer does not fit the question')
}
