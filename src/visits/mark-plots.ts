import { z } from 'zod'
import { refill } from '#src/conversation/fields.ts'
import { withHeicNote } from '#src/conversation/heic.ts'
import { type Choice, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Event, FieldValue, Tools } from '#src/desk/command.ts'
import { nextLookOf } from '#src/recheck/plan.ts'
import { recordName } from '#src/record/number.ts'
import { readDay } from '#src/site/read-day.ts'
import type { Plot, PlotKind } from '#src/store/plots.ts'
import type { KeptVisits } from '#src/store/visits.ts'
import type { Application } from './application.ts'
import { findNumbered, findTyped } from './find-record.ts'
import { closeRest, earlierOnGround, keepVisits } from './keep-visits.ts'
import type { PlotsOptions } from './options.ts'
import { sayPlace } from './place.ts'
import { plotForm } from './plot-form.ts'
import { readPlot } from './read-plot.ts'
import { PLOT_PHOTOS, sayPlot, WHOLE } from './say-plot.ts'

/** What every step of marking carries: the record, and a day on which seed or sod is planned. */
const Marking = z.strictObject({ record: z.int(), seeding: z.string().exactOptional() })
type Marking = z.infer<typeof Marking>

type Work = (marking: Marking, event: Event, tools: Tools) => Promise<Answer>

const STEPS: Readonly<Record<string, Work>> = {
  plot: (marking, _event, tools) => askPlot(marking, 'treated', tools),
  untreated: (marking, _event, tools) => askPlot(marking, 'untreated', tools),
  'keep-treated': (marking, event, tools) => keepPlot(marking, 'treated', event, tools),
  'keep-untreated': (marking, event, tools) => keepPlot(marking, 'untreated', event, tools),
  'none-allowed': noneAllowed,
  whole,
  same,
}

/** Marks plots from a record: the form of the first one at once. */
export async function startPlots(given: PlotsOptions, tools: Tools): Promise<Answer> {
  const found = await findTyped(given.record, tools)
  if (!found.ok) return found.ask
  const seeding = given.seeding === undefined ? undefined : readDay(given.seeding, tools.today, 'future')
  if (seeding === null) return refuse(say('area.problem.day', { text: given.seeding ?? '' }))
  if (seeding !== undefined && seeding < tools.today)
    return refuse(say('visits.seeding-past', { day: { day: seeding } }))
  const marking = { record: found.value.row.number, ...(seeding === undefined ? {} : { seeding }) }
  return askPlot(marking, 'treated', tools)
}

export async function nextPlots(event: Event, tools: Tools): Promise<Answer> {
  const marking = Marking.parse(event.value)
  const work = STEPS[event.step]
  if (work === undefined) throw new RangeError(`Cannot go on with plots: no step ${event.step}`)
  return work(marking, event, tools)
}

function refuse(title: Text, lines: readonly Text[] = []): Answer {
  return {
    reply: reply('refusal', title, {
      lines: [...lines],
      audience: 'person',
      safety: { about: ['recheck'] },
    }),
  }
}

async function askPlot(
  marking: Marking,
  kind: PlotKind,
  tools: Tools,
  again?: { readonly problems: readonly Text[]; readonly fields: Readonly<Record<string, FieldValue>> },
): Promise<Answer> {
  const found = await findNumbered(marking.record, tools)
  if (!found.ok) return found.ask
  const { row } = found.value
  const plots = await tools.store.plots.list(row.number)
  const form = plotForm(kind, plots, { step: `keep-${kind}`, value: marking })
  return {
    reply: reply('question', say(`visits.mark-${kind}`, about(found.value)), {
      lines:
        again === undefined ? [say(`visits.mark-${kind}-how`), ...plots.map(sayPlot)] : [...again.problems],
      facts: [{ name: 'record', value: recordName(row.number) }],
      form:
        again === undefined
          ? form
          : { ...form, open: say('common.correct-it'), fields: refill(form.fields, again.fields) },
      choices:
        again === undefined ? await waysOn(marking, kind, { application: found.value, plots }, tools) : [],
      audience: 'person',
      safety: { about: ['recheck'] },
    }),
  }
}

const about = (application: Application) => ({
  record: recordName(application.row.number),
  place: sayPlace(application),
})

interface Marked {
  readonly application: Application
  readonly plots: readonly Plot[]
}

/** Beside the form: the spot of the other kind, the plots of the application before, or no plots at all. */
async function waysOn(
  marking: Marking,
  kind: PlotKind,
  { application, plots }: Marked,
  tools: Tools,
): Promise<Choice[]> {
  const to = (step: string, id: string): Choice => ({ label: say(id), to: { step, value: marking } })
  if (kind === 'untreated') return [to('none-allowed', 'visits.none-allowed')]
  if (plots.length > 0) return []
  const before = await earlierOnGround(application, tools)
  const again =
    before === null
      ? []
      : [
          {
            label: say('visits.same-plots', { record: recordName(before.recordNumber ?? 0) }),
            to: { step: 'same', value: marking },
          },
        ]
  return [...again, to('whole', 'visits.no-plots')]
}

async function keepPlot(marking: Marking, kind: PlotKind, event: Event, tools: Tools): Promise<Answer> {
  const found = await findNumbered(marking.record, tools)
  if (!found.ok) return found.ask
  const fields = event.kind === 'submit' ? event.fields : {}
  const plots = await tools.store.plots.list(marking.record)
  const read = readPlot(
    fields,
    plots.map(({ flag }) => flag),
  )
  if (!read.ok) return askPlot(marking, kind, tools, { problems: read.problems, fields })
  const { flag, body, photos } = read.value
  const id = await create(found.value, { kind, flag, body }, tools)
  for (const photo of photos) await tools.store.files.attach(photo, PLOT_PHOTOS, id, tools.nowMs)
  const said = kind === 'untreated' ? ({ untreated: 'marked' } as const) : {}
  return withHeicNote(await marked(marking, found.value, said, tools), photos)
}

function create(
  { row }: Application,
  plot: Pick<Plot, 'kind' | 'flag' | 'body'>,
  { store, person, nowMs }: Tools,
): Promise<number> {
  return store.plots.create(
    { recordNumber: row.number, areaId: row.areaId, personId: person.id, ...plot },
    nowMs,
  )
}

async function noneAllowed(marking: Marking, _event: Event, tools: Tools): Promise<Answer> {
  const found = await findNumbered(marking.record, tools)
  return found.ok ? marked(marking, found.value, { untreated: 'none' }, tools) : found.ask
}

/** No flags at all: the treated ground is rated as one plot. */
async function whole(marking: Marking, _event: Event, tools: Tools): Promise<Answer> {
  const found = await findNumbered(marking.record, tools)
  if (!found.ok) return found.ask
  if ((await tools.store.plots.list(marking.record)).length > 0)
    return marked(marking, found.value, {}, tools)
  const size = found.value.area === null ? '' : `${found.value.area.squareFeet} ft2`
  await create(
    found.value,
    { kind: 'treated', flag: WHOLE, body: { where: '', pin: null, size, coverPercent: null } },
    tools,
  )
  return marked(marking, found.value, {}, tools)
}

/** The same flags again: the looks that are left of the application before are closed. */
async function same(marking: Marking, _event: Event, tools: Tools): Promise<Answer> {
  const found = await findNumbered(marking.record, tools)
  if (!found.ok) return found.ask
  if ((await tools.store.plots.list(marking.record)).length > 0)
    return marked(marking, found.value, {}, tools)
  const before = await earlierOnGround(found.value, tools)
  const plots = await tools.store.plots.list(before?.recordNumber ?? 0)
  for (const { kind, flag, body } of plots)
    await create(found.value, { kind, flag, body: { ...body, coverPercent: null } }, tools)
  if (before !== null) await closeRest(before, found.value, tools)
  const untreated = before?.untreated ?? 'open'
  return marked(marking, found.value, { untreated }, tools)
}

/** What is marked so far, and when the first look is; asks for an untreated spot until somebody has said. */
async function marked(
  marking: Marking,
  application: Application,
  said: { readonly untreated?: KeptVisits['untreated'] },
  tools: Tools,
): Promise<Answer> {
  const visits = await keepVisits(application, { ...said, seeding: marking.seeding }, tools)
  const plots = await tools.store.plots.list(marking.record)
  const first = nextLookOf(visits.plan)
  const asks = visits.untreated === 'open'
  const to = (step: string, id: string): Choice => ({ label: say(id), to: { step, value: marking } })
  const isWhole = plots.some(({ flag }) => flag === WHOLE)
  return {
    reply: reply(
      asks ? 'question' : 'answer',
      say(asks ? 'visits.untreated-where' : 'visits.marked', {
        count: plots.filter(({ kind }) => kind === 'treated').length,
        ...about(application),
      }),
      {
        lines: [
          ...(asks ? [say('visits.untreated-why')] : []),
          ...plots.map(sayPlot),
          ...(visits.untreated === 'none' ? [say('recheck.note-no-untreated')] : []),
          ...(first === null
            ? []
            : [
                say('visits.first-look', {
                  from: { day: first.from },
                  to: { day: first.to },
                  day: { day: first.visitOn },
                }),
              ]),
        ],
        facts: [
          { name: 'record', value: recordName(marking.record) },
          { name: 'plots', value: plots.filter(({ kind }) => kind === 'treated').length },
          ...(first === null
            ? []
            : [
                {
                  name: 'due',
                  value: first.visitOn,
                  text: say('visits.day', { day: { day: first.visitOn } }),
                },
              ]),
        ],
        choices: [
          ...(asks
            ? [to('untreated', 'visits.mark-untreated-button'), to('none-allowed', 'visits.none-allowed')]
            : []),
          ...(isWhole ? [] : [to('plot', 'visits.another-plot')]),
        ],
        safety: { about: ['recheck'] },
      },
    ),
  }
}
