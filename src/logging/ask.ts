import { type Choice, type ReplyParts, reply, type Step } from '#src/conversation/reply.ts'
import { asTyped, say, type Text } from '#src/conversation/text.ts'
import type { Answer, FieldValue } from '#src/desk/command.ts'
import { historyFrom } from '#src/mixing/history.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { MOST_FIELDS } from '#src/record/step-list.ts'
import type { LogEnv } from './env.ts'
import { logFields } from './fields/all.ts'
import { logForm } from './forms.ts'
import { judge } from './judge.ts'
import type { LogState } from './options.ts'
import { partsOf } from './parts.ts'
import { formsLeft, nextForm } from './pending.ts'
import { MOST_PHOTOS, photosOf } from './photos.ts'
import { findingLines, missingLine, summaryOf } from './words.ts'

const to = (label: Text, step: string, value?: Step['value']): Choice => ({
  label,
  to: { step, ...(value === undefined ? {} : { value }) },
})

const later = to(say('logging.later'), 'later')

function question(draftId: number, title: Text, parts: ReplyParts): Answer {
  return {
    reply: reply('question', title, { audience: 'person', safety: { about: ['records'] }, ...parts }),
    state: { draft: draftId } satisfies LogState,
  }
}

/** The next thing that is needed: by press where a press will do, else the next short form, else the last look. */
export async function askNext(env: LogEnv, draftId: number): Promise<Answer> {
  const { draft } = env
  if (draft.handsWashed === undefined || draft.unusual === undefined) return askHands(draftId)
  const place = await askPlace(env, draftId)
  if (place !== null) return place
  if (env.area !== null && draft.coverage === undefined) return askCoverage(env, draftId)
  const ground = await askGround(env, draftId)
  if (ground !== null) return ground
  const names = nextForm(env)
  if (names.length === 0) return lastLook(env, draftId)
  return question(draftId, say('logging.form-of', { title: placeOf(env), left: formsLeft(env) }), {
    form: logForm(env, names),
    choices: [later],
  })
}

/** Which site and product, for whoever has two logs open. */
function placeOf({ site, area, draft }: LogEnv): Text {
  if (site !== null && area !== null) return say('logging.at-area', { site: site.name, area: area.name })
  if (site !== null) return say('logging.at-site', { site: site.name })
  const [product] = recorded(draft.products) ?? []
  return product === undefined ? say('logging.new') : asTyped(product.name)
}

/** Clean hands first: a phone is touched with them. Then whether anything went wrong, since nothing matters more. */
function askHands(draftId: number): Answer {
  return question(draftId, say('logging.hands'), {
    choices: [
      { ...to(say('logging.hands-all-well'), 'hands', 'well'), look: 'main' },
      { ...to(say('logging.hands-unusual'), 'hands', 'unusual'), look: 'stop' },
      later,
    ],
    lines: [say('logging.hands-why')],
    safety: { about: ['hygiene', 'records'] },
  })
}

/** Most choices that a reply may hold, less the ways out. */
const MOST = 22

async function askPlace(env: LogEnv, draftId: number): Promise<Answer | null> {
  const { draft, site, areas, area, mix, tools } = env
  if (site === null) {
    if (draft.placeAddress !== undefined || draft.placeWords !== undefined) return null
    const all = await tools.store.sites.list()
    const logged = mix === null ? [] : await tools.store.records.ofMix(mix.id)
    const done = new Set(logged.map(({ siteId }) => siteId))
    const planned = (mix?.body.places ?? []).map(({ siteId }) => siteId)
    // The day's sites first, in their order, those that have their log behind the others.
    const rank = (id: number) =>
      planned.includes(id) && !done.has(id) ? planned.indexOf(id) : planned.length
    const sorted = [...all].sort((one, other) => rank(one.id) - rank(other.id))
    const shown = sorted.slice(0, MOST)
    return question(draftId, say('logging.which-site'), {
      choices: [
        ...shown.map(({ id, name }) => to(asTyped(name), 'site', id)),
        to(say('logging.elsewhere'), 'elsewhere'),
        later,
      ],
    })
  }
  if (area !== null || areas.length === 0 || draft.areaId !== undefined) return null
  return question(draftId, say('logging.which-area', { site: site.name }), {
    choices: [...areas.slice(0, MOST).map(({ id, name }) => to(asTyped(name), 'area', id)), later],
  })
}

function askCoverage(env: LogEnv, draftId: number): Answer {
  const size = { value: env.area?.squareFeet ?? '0', unit: 'ft2' }
  return question(draftId, say('logging.how-much-ground', { area: env.area?.name ?? '' }), {
    choices: [
      to(say('logging.whole', { size }), 'coverage', 'whole area'),
      to(say('logging.spots'), 'coverage', 'spots'),
      to(say('logging.strip'), 'coverage', 'strip'),
      later,
    ],
  })
}

/** Limits bind the ground that was treated, so whoever treats a part says which part. */
async function askGround(env: LogEnv, draftId: number): Promise<Answer | null> {
  const { draft, area, tools } = env
  if (area === null || draft.sameGround !== undefined) return null
  if (draft.coverage !== 'spots' && draft.coverage !== 'strip') return null
  const day = recorded(draft.date) ?? tools.today
  const before = (await tools.store.treatments.list(area.id, historyFrom(day))).filter(
    ({ treatedOn }) => treatedOn <= day,
  )
  const last = before.at(-1)
  if (last === undefined) return null
  return question(
    draftId,
    say('logging.same-ground', { day: { day: last.treatedOn }, product: last.details.product }),
    {
      choices: [
        to(say('logging.ground-same'), 'ground', 'same spots'),
        to(say('logging.ground-other'), 'ground', 'other spots'),
        to(say('logging.ground-missed'), 'ground', 'missed strip'),
        to(say('logging.not-known'), 'ground', 'unknown'),
        later,
      ],
    },
  )
}

/** Every figure once more before it is kept, with what is missing and what the label says. */
async function lastLook(env: LogEnv, draftId: number): Promise<Answer> {
  const judged = await judge(env)
  const photos = photosOf(env.draft).length
  const missing = judged.status.missing
  const fields = [...new Set(missing.map(({ field }) => field))].filter(
    (name) => logFields[name] !== undefined,
  )
  return question(draftId, say('logging.right', { place: placeOf(env) }), {
    lines: [
      ...summaryOf(env.draft),
      ...(photos === 0 ? [] : [say('log-photos.with-it', { count: photos })]),
      ...missingLine(judged),
      ...findingLines(judged),
    ],
    choices: [
      { ...to(say('logging.keep'), 'keep'), look: 'main' },
      ...(fields.length === 0 ? [] : [to(say('logging.fill-missing'), 'fill', fields.slice(0, MOST_FIELDS))]),
      ...(photos < MOST_PHOTOS ? [to(say('log-photos.add'), 'photos')] : []),
      to(say('logging.correct'), 'correct'),
      later,
    ],
  })
}

/** Which part is wrong; behind one press, so that the last look itself stays short. */
export function askWhatIsWrong(env: LogEnv, draftId: number): Answer {
  return question(draftId, say('logging.what-is-wrong'), {
    choices: [
      ...partsOf(env, MOST_FIELDS).map(({ label, fields }) => to(label, 'fill', [...fields])),
      to(say('logging.nothing-wrong'), 'look'),
      { ...to(say('logging.drop'), 'drop'), look: 'stop' },
    ],
  })
}

/** A short form that somebody asked for, or that came back with something wrong in it. */
export function askFields(
  env: LogEnv,
  draftId: number,
  names: readonly string[],
  wrong?: { readonly problems: readonly Text[]; readonly typed: Readonly<Record<string, FieldValue>> },
): Answer {
  return question(draftId, wrong === undefined ? placeOf(env) : say('common.not-yet'), {
    ...(wrong === undefined ? {} : { lines: [...wrong.problems] }),
    form: logForm(env, names, wrong?.typed ?? null),
    choices: [later],
  })
}
