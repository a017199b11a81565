import type { JobOutcome, MixOutcome } from '#src/calculator/mix/outcome.ts'
import { planFill } from '#src/calculator/mix/plan-fill.ts'
import { planJob } from '#src/calculator/mix/plan-job.ts'
import type { Adjuvant, InTank, MixBasis, Tool, Volume } from '#src/calculator/mix/request.ts'
import { askFor } from '#src/conversation/ask-for.ts'
import { type Reader, reader } from '#src/conversation/reader.ts'
import { reply } from '#src/conversation/reply.ts'
import { asTyped, say, type Text } from '#src/conversation/text.ts'
import { quantityTrouble } from '#src/conversation/trouble.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { mayI } from '#src/label/allow.ts'
import { rateOf, readingOf, strengthOf } from '#src/label/figures.ts'
import type { Situation } from '#src/label/situation.ts'
import { compareOutcomes, type Reason, type Verdict } from '#src/label/verdict.ts'
import { parseRate } from '#src/quantity/parse-rate.ts'
import type { Output, Rate, Strength } from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import { chooseAdjuvants } from './adjuvants.ts'
import { answerFill, answerJob } from './answer.ts'
import { answerVerdict } from './answer-verdict.ts'
import { checkContents } from './contents.ts'
import { liftNote } from './lift.ts'
import { toolsFor, typedTool } from './measuring-tools.ts'
import type { MixOptions } from './options.ts'
import { askForText, findOutput } from './output.ts'
import { rememberRefusal, repeatsRefusal } from './refused.ts'
import { findNamed, type Named } from './resolve.ts'
import { allowSettingsOf, situationOf, withRate } from './situation.ts'
import { tellOfOldEntry } from './tell-leads.ts'
import { readVolumes, type Volumes } from './volumes.ts'

/** What is known about one mix when all questions are answered. */
export interface Ready {
  readonly given: MixOptions
  readonly named: Named
  readonly rate: Rate
  readonly volumes: Volumes
  readonly output: Output | undefined
  /** What to mind of the sprayer and the output. */
  readonly notes: readonly Text[]
  /** What is only told. */
  readonly told: readonly Text[]
  /** Who lifted holds for this product, area and day, and why. */
  readonly lifted: Text | null
  readonly situation: Situation
  readonly verdict: Verdict | null
}

/** Asks what is missing, checks what the label says, and works out the amount. */
export async function mix(given: MixOptions, tools: Tools): Promise<Answer> {
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
function refuseGranules({ product }: Named): Answer | null {
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

/**
 * Limits bind ground that was treated before. When nobody has said whether it is the same, and other ground would
 * be answered more mildly, that is the question.
 */
function askWhichGround(
  { given, situation }: Pick<Ready, 'given' | 'situation'>,
  verdict: Verdict,
  judge: (situation: Situation) => Verdict,
): Answer | null {
  if (given.spots !== undefined || situation.treatments.length === 0) return null
  const other = judge({
    ...situation,
    treatments: situation.treatments.map((one) => ({ ...one, sameGround: false })),
  })
  if (compareOutcomes(other.outcome, verdict.outcome) >= 0) return null
  return askFor(
    given,
    say('mixing.which-ground'),
    [
      { label: say('mixing.ground-same'), set: { spots: 'same' } },
      { label: say('mixing.ground-other'), set: { spots: 'other' } },
    ],
    { safety: { about: ['spraying'] } },
  )
}

/** What stands in the way, the strictest first; null when nothing does. */
function verdictFor({ named, lifted }: Pick<Ready, 'named' | 'lifted'>, verdict: Verdict): Verdict | null {
  const reasons = verdict.reasons.filter(
    (reason) => !isUnchecked(reason, named) && !(lifted !== null && reason.outcome === 'hold'),
  )
  const first = reasons.find(({ outcome }) => outcome !== 'answer' && outcome !== 'heads-up')
  return first === undefined ? null : { ...verdict, outcome: first.outcome, reasons }
}

/** Without a site nothing is known of the ground: that is a note of its own and not a hold. */
function isUnchecked({ id, outcome }: Reason, { site }: Named): boolean {
  return site === null && id === 'label.turf-unknown' && outcome === 'hold'
}

type Chosen = { readonly ok: true; readonly value: Rate } | { readonly ok: false; readonly ask: Answer }

/** The typed rate; else the label's only one; among several lines or a span, the person chooses. */
function chooseRate(
  { given, named, lifted }: Pick<Ready, 'given' | 'named' | 'lifted'>,
  situation: Situation,
  verdict: Verdict | null,
  tools: Tools,
): Chosen {
  const entry = named.product?.live.body
  if (given.rate !== undefined)
    return readRate(given, given.rate, entry === undefined ? {} : readingOf(entry.form), tools)
  if (entry === undefined || verdict === null) throw new RangeError('A mix needs a product or a rate')
  const judge = (one: Situation) => mayI(entry, one, allowSettingsOf(tools.crew))
  const ground = askWhichGround({ given, situation }, verdict, judge)
  if (ground !== null) return { ok: false, ask: ground }
  const stopped = verdictFor({ named, lifted }, verdict)
  if (stopped !== null && (stopped.outcome === 'hold' || stopped.outcome === 'refusal'))
    return { ok: false, ask: answerVerdict({ given, named }, stopped) }
  const [line, ...others] = verdict.rateLines
  if (line === undefined) throw new RangeError('A label entry has no rate line')
  if (others.length > 0)
    return {
      ok: false,
      ask: askFor(
        given,
        say('mixing.which-line', { product: entry.name }),
        verdict.rateLines.map((one) => ({ label: asTyped(one.line), set: { line: one.id } })),
        { safety: { about: ['measuring'] } },
      ),
    }
  const [printed] = line.rates
  if (printed === undefined) throw new RangeError('A rate line has no rate')
  if (printed.low === undefined || printed.low === printed.high)
    return { ok: true, value: rateOf(entry, printed.high) }
  return {
    ok: false,
    ask: askFor(
      given,
      say('mixing.which-rate', {
        low: sayRate(rateOf(entry, printed.low)),
        high: sayRate(rateOf(entry, printed.high)),
      }),
      [
        {
          label: say('mixing.lowest', { rate: sayRate(rateOf(entry, printed.low)) }),
          set: { rate: printed.low, line: line.id },
        },
        {
          label: say('mixing.highest', { rate: sayRate(rateOf(entry, printed.high)) }),
          set: { rate: printed.high, line: line.id },
        },
      ],
      { lines: [asTyped(line.line)], safety: { about: ['measuring'] } },
    ),
  }
}

/** An ounce of nothing in particular is a question, with both answers to press. */
function readRate(
  given: MixOptions,
  text: string,
  reading: Parameters<typeof parseRate>[1],
  tools: Tools,
): Chosen {
  const locale = tools.locale.startsWith('es') ? 'es' : 'en'
  const read = parseRate(text, { ...reading, locale })
  if (read.ok) return { ok: true, value: read.value }
  const { error } = read
  if (error.kind === 'ambiguous-ounce') {
    const as = (unit: string) => text.replace(/\b(oz|onzas?|ounces?)\b\.?/i, unit)
    return {
      ok: false,
      ask: askFor(
        given,
        quantityTrouble(error),
        [
          { label: say('mixing.ounce-weight'), set: { rate: as('oz wt') } },
          { label: say('mixing.ounce-fluid'), set: { rate: as('fl oz') } },
        ],
        { safety: { about: ['measuring'] } },
      ),
    }
  }
  return {
    ok: false,
    ask: refuse([say('desk.option-problem', { option: 'rate', problem: quantityTrouble(error) })]),
  }
}

function refuse(problems: readonly Text[]): Answer {
  return { reply: reply('refusal', say('mixing.cannot'), { lines: [...problems], audience: 'person' }) }
}

function askHowMuch(given: MixOptions, { sprayer }: Named): Answer {
  if (sprayer === null) return askForText(given, 'tank', say('mixing.no-tank'))
  const part = (label: string, tank: string) => ({ label: say(label), set: { tank } })
  return askFor(
    given,
    say('mixing.how-full', { sprayer: sprayer.name, tank: sprayer.details.tank }),
    [part('mixing.full', '1'), part('mixing.half', '1/2'), part('mixing.quarter', '1/4')],
    { safety: { about: ['measuring'] } },
  )
}

function basisOf(ready: Ready, adjuvants: Adjuvant[], read: Reader, tools: Tools): MixBasis {
  const { given, named, rate, output, volumes } = ready
  const entry = named.product?.live.body
  const strengths: Strength[] =
    entry?.actives.flatMap(({ strength, acid }) => [
      strengthOf(strength),
      ...(acid === undefined ? [] : [strengthOf(acid)]),
    ]) ?? []
  const typedStrength = read.strength('strength', given.strength)
  const inTank = inTankOf(ready, read)
  const marks = volumes.marks
  return {
    rate,
    figures: {
      ...(strengths.length === 0 && typedStrength === undefined
        ? {}
        : { strengths: [...(typedStrength ? [typedStrength] : []), ...strengths] }),
      ...(output === undefined ? {} : { output }),
    },
    ...(adjuvants.length === 0 ? {} : { adjuvants }),
    tools: usableTools(given, named, read, tools),
    ...(volumes.capacity === undefined ? {} : { capacity: volumes.capacity }),
    ...(marks === undefined ? {} : { mark: marks }),
    ...(inTank === undefined ? {} : { inTank }),
    usualOutput: USUAL_OUTPUT,
  }
}

/** Common practice, no source: a rate per 1,000 ft² is often read as a rate per gallon, which is true at this output. */
const USUAL_OUTPUT: Output = { value: '1', unit: 'gal', per: { value: '1000', unit: 'ft2' } }

function inTankOf({ given, rate, volumes }: Ready, read: Reader): InTank | undefined {
  const volume = volumes.inTank
  const output = read.output('in_tank_output', given.in_tank_output)
  const other = read.rate('in_tank_rate', given.in_tank_rate)
  if (volume === undefined) return undefined
  if (output === undefined && other === undefined) return { kind: 'same', volume }
  return { kind: 'other', volume, rate: other ?? rate, ...(output === undefined ? {} : { output }) }
}

/** The scale that was typed; else the crew's tools and this product's own scoop. */
function usableTools(given: MixOptions, { product }: Named, read: Reader, { crew }: Tools): Tool[] {
  const scale = read.quantity('scale', given.scale, { expect: ['mass', 'volume'] })
  return scale === undefined ? toolsFor(product?.live.body, crew) : [typedTool(scale)]
}

function plan(ready: Ready, basis: MixBasis): MixOutcome | JobOutcome {
  const { volumes } = ready
  if (volumes.ground !== undefined && volumes.fill === undefined && volumes.capacity !== undefined)
    return planJob({ ...basis, ground: volumes.ground, capacity: volumes.capacity })
  const fill = volumes.fill ?? volumes.capacity
  if (fill === undefined) throw new RangeError('A mix needs a volume')
  return planFill({ ...basis, fill, ...(volumes.ground === undefined ? {} : { ground: volumes.ground }) })
}

const isJob = (outcome: MixOutcome | JobOutcome): outcome is JobOutcome => 'job' in outcome

function appliedOf(outcome: MixOutcome | JobOutcome): Rate | null {
  if (outcome.outcome !== 'answer') return null
  return 'job' in outcome ? outcome.job.lastMix.rateApplied : outcome.mix.rateApplied
}

export type { Volume }
