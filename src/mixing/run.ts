import type { JobOutcome, MixOutcome } from '#src/calculator/mix/outcome.ts'
import { type Reader, reader } from '#src/conversation/reader.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { mayI } from '#src/label/allow.ts'
import type { Rate } from '#src/quantity/rate.ts'
import { chooseAdjuvants } from './adjuvants.ts'
import { answerFill, answerJob } from './answer.ts'
import { answerVerdict } from './answer-verdict.ts'
import { askHowMuch, refuse } from './ask-mix.ts'
import { appliedOf, basisOf, isJob, plan } from './basis.ts'
import { chooseRate } from './choose-rate.ts'
import { checkContents } from './contents.ts'
import { liftNote } from './lift.ts'
import type { MixOptions } from './options.ts'
import { askForText, findOutput } from './output.ts'
import type { Ready } from './ready.ts'
import { rememberRefusal, repeatsRefusal } from './refused.ts'
import { findNamed, type Named } from './resolve.ts'
import { allowSettingsOf, situationOf, withRate } from './situation.ts'
import { askWhichGround, verdictFor } from './stops.ts'
import { tellOfOldEntry } from './tell-leads.ts'
import { readVolumes } from './volumes.ts'

/** Asks what is missing, checks what the label says, and works out the amount. */
export async function mixOne(given: MixOptions, tools: Tools): Promise<Answer> {
  const found = await findNamed(given, tools)
  if (!found.ok) return found.ask
  const named = found.value
  const spread = refuseGranules(named)
  if (spread !== null) return spread
  const contents = await checkContents(given, named, tools)
  if (!contents.ok) return contents.ask
  const read = reader(tools.locale)

  if (named.product === null && given.rate === undefined)
    return askForText(given, 'rate', say('mixing.no-rate'))
  const situation = await situationOf(given, named, tools)
  const lifted = await liftNote(named, tools)
  const judged =
    named.product === null ? null : mayI(named.product.live.body, situation, allowSettingsOf(tools.crew))
  if (judged !== null) await tellOfOldEntry(named, judged, tools)
  const rate = chooseRate({ given, named, lifted }, situation, judged, tools)
  if (!rate.ok) return rate.ask
  const volumes = readVolumes(given, named, read)
  const output = await findOutput(given, named, read, tools)
  if (!output.ok) return output.ask
  if (read.problems.length > 0) return refuse(read.problems)
  if (volumes === null) return askHowMuch(given, named)
  if (output.value === null && (rate.value.kind === 'area' || volumes.ground !== undefined))
    return askForText(given, 'output', say('mixing.no-output'))

  return work(
    {
      given,
      named,
      rate: rate.value,
      volumes,
      output: output.value?.output,
      notes: [...(lifted === null ? [] : [lifted]), ...contents.notes, ...(output.value?.notes ?? [])],
      told: contents.told,
      lifted,
      situation,
      verdict: null,
    },
    read,
    tools,
  )
}

/** A granule goes on dry, from a spreader: no tank makes a spray of it. */
export function refuseGranules({ product }: Named): Answer | null {
  if (product?.live.body.formulation !== 'G') return null
  return {
    reply: reply('refusal', say('order.granule', { name: product.name }), {
      safety: { about: ['measuring'] },
    }),
  }
}

async function work(ready: Ready, read: Reader, tools: Tools): Promise<Answer> {
  const { given, named, rate, output } = ready
  const adjuvants = chooseAdjuvants(given.adjuvant, named.product?.live.body, read)
  const temperature = read.quantity('temperature', given.temperature, {
    expect: 'temperature',
    bareUnit: 'F',
  })
  const basis = basisOf(ready, adjuvants, read, tools)
  if (read.problems.length > 0) return refuse(read.problems)

  const more = { adjuvant: adjuvants.length > 0, temperature }
  const judge = (applied: Rate) =>
    named.product === null
      ? null
      : mayI(
          named.product.live.body,
          withRate(ready.situation, applied, output, more),
          allowSettingsOf(tools.crew),
        )
  const before = judge(rate)
  const asked =
    before === null
      ? null
      : askWhichGround(ready, before, (situation) =>
          named.product === null
            ? before
            : mayI(
                named.product.live.body,
                withRate(situation, rate, output, more),
                allowSettingsOf(tools.crew),
              ),
        )
  if (asked !== null) return asked
  const stopped = before === null ? null : verdictFor(ready, before)
  if (stopped !== null) {
    if (stopped.outcome === 'refusal') await rememberRefusal(ready, stopped, tools)
    return answerVerdict(ready, stopped)
  }

  const maxima = before?.ceilings.map(({ rates }) => rates) ?? []
  const planned = plan(
    { ...ready, verdict: before },
    { ...basis, ...(maxima.length === 0 ? {} : { maxima }) },
  )
  const applied = appliedOf(planned)
  const after = applied === null ? before : judge(applied)
  const held = after === null ? null : verdictFor(ready, after)
  if (held !== null) return answerVerdict(ready, held)
  const typedOnly = named.product === null ? await repeatsRefusal(ready, tools) : []
  const done = { ...ready, verdict: after, notes: [...ready.notes, ...typedOnly] }
  return 'loads' in planned || isJob(planned)
    ? answerJob(done, planned as JobOutcome, tools)
    : answerFill(done, planned as MixOutcome, tools)
}
