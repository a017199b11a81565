import { z } from 'zod'
import { SET, withSet } from '#src/conversation/ask-for.ts'
import { field, filesOf, textOf } from '#src/conversation/fields.ts'
import { withHeicNote } from '#src/conversation/heic.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Event, Tools } from '#src/desk/command.ts'
import type { RecordDraft } from '#src/record/record.ts'
import type { KeptDraft } from '#src/store/drafts.ts'
import { askFields, askNext, askWhatIsWrong } from './ask.ts'
import { beginLog, open, refuse } from './begin.ts'
import { envOf } from './env.ts'
import { finish } from './finish.ts'
import { readForm } from './forms.ts'
import { openIncident } from './incident.ts'
import { LogOptions, type LogState } from './options.ts'
import { addPhotos, askPhotos } from './photos.ts'
import { settle } from './settle.ts'
import { withArea, withCoverage, withSite, withSupervisor } from './start.ts'

const Coverage = z.enum(['whole area', 'spots', 'strip'])

/** What the book would tell of a site. */
const ELSEWHERE = ['place', 'placeWords', 'site', 'customerName']

/** One step on in a log. Whatever was said is kept before the next question is asked. */
export async function nextOfLog({ draft, given }: LogState, event: Event, tools: Tools): Promise<Answer> {
  if (event.step === 'new') return open(null, {}, tools)
  if (event.step === SET) return beginLog(LogOptions.parse(withSet(given ?? {}, event.value)), tools)
  const kept = draft === null ? undefined : await tools.store.drafts.get(draft)
  if (kept === undefined || kept.status !== 'open') return refuse(say('logging.closed'))
  if (event.kind === 'submit') return takeForm(kept, event, tools)
  switch (event.step) {
    case 'later':
      return putOff()
    case 'drop':
      return drop(kept, tools)
    case 'keep':
      return finish(kept, tools)
    case 'fill':
      return askFields(await envOf(kept.draft, kept.mixId, tools), kept.id, namesOf(event.value))
    case 'correct':
      return askWhatIsWrong(await envOf(kept.draft, kept.mixId, tools), kept.id)
    case 'photos':
      return askPhotos(kept.id)
    case 'look':
      return askNext(await envOf(kept.draft, kept.mixId, tools), kept.id)
    case 'elsewhere':
      return askFields(await envOf(kept.draft, kept.mixId, tools), kept.id, ELSEWHERE)
    case 'hands':
      return event.value === 'unusual'
        ? askWhatHappened(kept)
        : keepOn(kept, { handsWashed: true, unusual: { happened: false } }, tools)
    default:
      return keepOn(kept, await pressed(kept.draft, event, tools), tools)
  }
}

/** What a press says: place, how much of it, which ground. */
async function pressed(draft: RecordDraft, { step, value }: Event, tools: Tools): Promise<RecordDraft> {
  const { store } = tools
  switch (step) {
    case 'site': {
      const site = typeof value === 'number' ? await store.sites.get(value) : undefined
      if (site === undefined) throw new RangeError('Cannot find the site that was pressed')
      const placed = await withSite(draft, site, tools)
      const [only, ...more] = await store.sites.listAreas(site.id)
      return only === undefined || more.length > 0 ? placed : withArea(placed, only, tools)
    }
    case 'area': {
      const areas = draft.siteId === undefined ? [] : await store.sites.listAreas(draft.siteId)
      const area = areas.find(({ id }) => id === value)
      if (area === undefined) throw new RangeError('Cannot find the area that was pressed')
      return withArea(draft, area, tools)
    }
    case 'coverage': {
      const coverage = Coverage.parse(value)
      const areas = draft.siteId === undefined ? [] : await store.sites.listAreas(draft.siteId)
      return withCoverage(draft, coverage, areas.find(({ id }) => id === draft.areaId) ?? null)
    }
    case 'ground':
      return { sameGround: value as NonNullable<Extract<RecordDraft['sameGround'], string>> }
    default:
      throw new RangeError(`A log has no step "${step}"`)
  }
}

async function keepOn(kept: KeptDraft, patch: RecordDraft, tools: Tools): Promise<Answer> {
  const mix = kept.mixId === null ? null : ((await tools.store.mixes.get(kept.mixId)) ?? null)
  const settled = await settle(kept.draft, { ...kept.draft, ...patch }, mix, tools)
  const draft = await withSupervisor(settled, tools)
  await tools.store.drafts.update(kept.id, draft, tools.nowMs)
  return askNext(await envOf(draft, kept.mixId, tools), kept.id)
}

async function takeForm(
  kept: KeptDraft,
  event: Event & { readonly kind: 'submit' },
  tools: Tools,
): Promise<Answer> {
  if (event.step === 'happened') return happened(kept, event, tools)
  if (event.step === 'photos') return takePhotos(kept, event, tools)
  const names = namesOf(event.value)
  const env = await envOf(kept.draft, kept.mixId, tools)
  const read = readForm(env, names, event.fields)
  if (read.wrong.length > 0)
    return askFields(env, kept.id, names, {
      problems: read.wrong.map(({ problem }) => problem),
      typed: event.fields,
    })
  return keepOn(kept, read.draft, tools)
}

async function takePhotos(
  kept: KeptDraft,
  event: Event & { readonly kind: 'submit' },
  tools: Tools,
): Promise<Answer> {
  const sent = filesOf(event.fields, 'photo')
  const { photos, problems } = await addPhotos(kept, sent, tools)
  if (problems.length === 0) return withHeicNote(await keepOn(kept, photos, tools), sent)
  await tools.store.drafts.update(kept.id, { ...kept.draft, ...photos }, tools.nowMs)
  return askPhotos(kept.id, problems)
}

const namesOf = (value: unknown): string[] =>
  Array.isArray(value) ? value.filter((one): one is string => typeof one === 'string') : []

function askWhatHappened({ id }: KeptDraft): Answer {
  return {
    reply: reply('question', say('logging.what-happened'), {
      lines: [say('logging.hurt-first')],
      choices: [
        {
          label: say('logging.emergency'),
          to: { command: 'emergency', options: {} },
          look: 'stop',
          repeat: true,
        },
      ],
      form: {
        title: say('logging.happened.title'),
        open: say('common.fill-in'),
        fields: [
          field('logging.happened', 'words', {
            kind: 'long-text',
            required: true,
            hint: true,
            maxLength: 1000,
          }),
        ],
        to: { step: 'happened' },
      },
      audience: 'person',
      safety: { about: ['emergency', 'records'] },
    }),
    state: { draft: id },
  }
}

/** Kept as an incident before anything else is asked, and told to the leads. */
async function happened(
  kept: KeptDraft,
  event: Event & { readonly kind: 'submit' },
  tools: Tools,
): Promise<Answer> {
  const words = textOf(event.fields, 'words')
  const unusual = await openIncident(words, tools)
  return keepOn(kept, { handsWashed: true, unusual }, tools)
}

function putOff(): Answer {
  return {
    reply: reply('answer', say('logging.put-off'), {
      lines: [say('logging.put-off-how')],
      audience: 'person',
      safety: { about: ['records'] },
    }),
  }
}

async function drop({ id }: KeptDraft, { store, nowMs }: Tools): Promise<Answer> {
  await store.drafts.close(id, 'dropped', nowMs)
  return {
    reply: reply('answer', say('logging.dropped'), { audience: 'person', safety: { about: ['records'] } }),
  }
}
