import { type Choice, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { tellLeads } from '#src/mixing/tell-leads.ts'
import { followRecord } from '#src/notices/follow-record.ts'
import { big } from '#src/quantity/big.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { recordName } from '#src/record/number.ts'
import { sayTables } from '#src/record/words.ts'
import type { KeptDraft } from '#src/store/drafts.ts'
import { refuse } from './begin.ts'
import { envOf, type LogEnv } from './env.ts'
import { leftIn } from './from-mix.ts'
import { type Judged, judge } from './judge.ts'
import { type Kept, keepRecord } from './keep.ts'
import { findingLines, missingLine, summaryOf } from './words.ts'

/** The log becomes a record. A log tells the truth: what lies above a limit is kept too, marked, and told. */
export async function finish(kept: KeptDraft, tools: Tools): Promise<Answer> {
  const { store, nowMs } = tools
  if (!(await store.drafts.close(kept.id, 'kept', nowMs))) return refuse(say('logging.closed'))
  const env = withOrder(await envOf(kept.draft, kept.mixId, tools), await placesBefore(kept, tools))
  const judged = await judge(env)
  const done = await keepRecord(env, judged, kept.mixId)
  const left = env.mix === null ? null : await leftIn(env.mix, store)
  if (env.mix !== null && left !== null && big(left.value).isZero())
    await store.mixes.close(env.mix.id, 'used up', nowMs)
  await tellOf(done, judged, env)
  await followRecord(done.number, tools)
  const isClean = judged.status.isComplete && judged.status.withinLabel === 'yes' && !judged.status.isLate
  return {
    reply: reply(isClean ? 'answer' : 'heads-up', say('logging.kept', { number: done.number }), {
      lines: [
        ...standingLines(judged),
        ...summaryOf(env.draft),
        ...missingLine(judged),
        ...findingLines(judged),
        ...(left === null || env.mix === null ? [] : leftLines(env.mix.number, left)),
        ...sayTables(env.rules),
      ],
      facts: factsOf(done.number, judged),
      choices: choicesOf(done.number, env, left),
      safety: { about: ['hygiene', 'keep-off'], label: keepOffLines(env) },
    }),
    state: { draft: kept.id },
  }
}

/** Sites of one tank keep their order. */
function withOrder(env: LogEnv, before: number): LogEnv {
  const planned = env.mix?.body.places.length ?? 0
  if (env.mix === null || env.draft.siteOrder !== undefined || (planned < 2 && before === 0)) return env
  const place = before + 1
  return { ...env, draft: { ...env.draft, siteOrder: { place, of: Math.max(planned, place) } } }
}

async function placesBefore({ mixId }: KeptDraft, { store }: Tools): Promise<number> {
  return mixId === null ? 0 : (await store.records.ofMix(mixId)).length
}

export function factsOf(number: number, { status }: Judged) {
  return [
    { name: 'record', value: recordName(number) },
    { name: 'complete', value: status.isComplete },
    { name: 'within_label', value: status.withinLabel },
    { name: 'missing', value: status.missing.map(({ element }) => element).join('; ') },
    { name: 'late', value: status.isLate },
  ]
}

export function standingLines({ status }: Judged): Text[] {
  return [
    say(status.isComplete ? 'logging.complete' : 'logging.incomplete'),
    say(`logging.within-label.${status.withinLabel}`),
    ...(status.isLate ? [say('logging.late')] : []),
  ]
}

function leftLines(number: number, left: { readonly value: string; readonly unit: string }): Text[] {
  return [
    big(left.value).isZero()
      ? say('logging.mix-used-up', { number })
      : say('logging.mix-has-left', { number, left }),
  ]
}

function keepOffLines({ draft }: LogEnv): Text[] {
  const words = recorded(draft.keepOff)
  return words === undefined ? [] : [say('logging.keep-off', { words })]
}

function choicesOf(number: number, { mix }: LogEnv, left: { readonly value: string } | null): Choice[] {
  const show: Choice = {
    label: say('logging.show', { number }),
    to: { command: 'record show', options: { record: recordName(number) } },
    repeat: true,
    who: 'crew',
  }
  const plots: Choice = {
    label: say('logging.mark-plots'),
    to: { command: 'recheck plots', options: { record: recordName(number) } },
    repeat: true,
  }
  const amend: Choice = {
    label: say('logging.amend', { number }),
    to: { command: 'record amend', options: { record: recordName(number) } },
    repeat: true,
  }
  if (mix === null || left === null || big(left.value).isZero())
    return [{ ...plots, look: 'main' }, show, amend]
  return [
    {
      label: say('logging.next-site'),
      to: { command: 'log', options: { mix: String(mix.number) } },
      look: 'main',
    },
    plots,
    show,
    amend,
  ]
}

/** Leads hear of what lies outside the label, and of what is late. */
async function tellOf({ number }: Kept, { status }: Judged, { tools, site }: LogEnv): Promise<void> {
  const where = site?.name ?? ''
  if (status.withinLabel === 'no')
    await tellLeads(
      say('logging.lead-outside', { number, site: where, person: tools.person.name }),
      `outside-${number}`,
      tools,
    )
  if (status.isLate)
    await tellLeads(
      say('logging.lead-late', { number, site: where, person: tools.person.name }),
      `late-${number}`,
      tools,
    )
}
