import { filesOf, refill, textOf, ticksOf } from '#src/conversation/fields.ts'
import { withHeicNote } from '#src/conversation/heic.ts'
import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Event, FieldValue, Tools } from '#src/desk/command.ts'
import type { Rating } from '#src/efficacy/rating.ts'
import { checkRating } from '#src/efficacy/rating.ts'
import { lookAgain } from '#src/recheck/again.ts'
import { next } from '#src/recheck/next.ts'
import type { CrewDays } from '#src/recheck/place.ts'
import { isPlanned, type Look, type LookPlan, lookRatedOn, nextLookOf } from '#src/recheck/plan.ts'
import { sayRatingProblem } from '#src/recheck/words.ts'
import { crewDaysOf } from './crew-days.ts'
import { answerDecision } from './decision-reply.ts'
import { judgeOne } from './judged.ts'
import { lookCard } from './look-card.ts'
import { AtVisit, type OpenVisits, openVisit } from './open-visit.ts'
import { seenSince } from './rating-form.ts'
import { readPercents, readSpot } from './read-percents.ts'

/** What photos of a rating are kept under. */
export const RATING_PHOTOS = 'rating'

/** Keeps what was seen, closes the look that it answers, and says what follows from it. */
export async function keepRating(event: Event, tools: Tools): Promise<Answer> {
  const { visit } = AtVisit.parse(event.value)
  const found = await openVisit(visit, tools)
  if (!found.ok) return found.ask
  const open = found.value
  const fields = event.kind === 'submit' ? event.fields : {}
  const read = readRating(open, fields, tools)
  if (!read.ok) return again(open, fields, read.problems, tools)
  const { store, person, today, nowMs, crew } = tools
  const { visits } = open
  const look = lookRatedOn(visits.plan, today)
  const ratingId = await store.ratings.add(
    { visitId: visits.id, lookId: look?.id ?? null, personId: person.id, rating: read.rating },
    nowMs,
  )
  for (const photo of filesOf(fields, 'photo').filter(({ type }) => type.startsWith('image/')))
    await store.files.attach(photo, RATING_PHOTOS, ratingId, nowMs)
  const plan = look === null ? visits.plan : afterRating(open, look, read.rating, crewDaysOf(crew))
  await store.visits.update(visits.id, { plan }, nowMs)
  const answer = await answerDecision({ ...open, visits: { ...visits, plan } }, look, tools)
  return withHeicNote(answer, filesOf(fields, 'photo'))
}

/** The look is closed; where nothing could be told of the weed, its question comes again soon. */
function afterRating(
  { visits, application, plots }: OpenVisits,
  look: Look,
  rating: Rating,
  crew: CrewDays,
): LookPlan {
  const { on, by } = rating
  const step = isPlanned(look) ? next(visits.plan, { kind: 'looked', look: look.id, on, by }, crew) : null
  const plan = step?.ok === true ? step.value : visits.plan
  const { control } = judgeOne(rating, plots, application.treatedOn)
  return lookAgain(plan, { look: look.id, on, isJudged: control !== null }, crew)
}

function again(
  open: OpenVisits,
  fields: Readonly<Record<string, FieldValue>>,
  problems: readonly Text[],
  { today }: Tools,
): Answer {
  const card = lookCard(open, today)
  const { form } = card
  if (form === null) throw new RangeError('A look has no form')
  return {
    reply: {
      ...card,
      lines: [...problems],
      form: { ...form, open: say('common.correct-it'), fields: refill(form.fields, fields) },
    },
  }
}

type ReadRating =
  | { readonly ok: true; readonly rating: Rating }
  | { readonly ok: false; readonly problems: readonly Text[] }

function readRating(
  { visits, application, plots }: OpenVisits,
  fields: Readonly<Record<string, FieldValue>>,
  { today, person }: Tools,
): ReadRating {
  const treated = plots.filter(({ kind }) => kind === 'treated').map(({ flag }) => flag)
  const read = readPercents(textOf(fields, 'control'), treated)
  const typed = textOf(fields, 'untreated')
  const untreated = typed === '' ? null : readSpot(typed)
  const seen = ticksOf(fields, 'seen')
  const injury = readInjury(textOf(fields, 'injury'))
  const unknown = seen.filter((one) => !seenSince.some((known) => known === one))
  const problems = [
    ...(read.ok ? [] : [read.problem]),
    ...(typed !== '' && untreated === null ? [say('visits.percent-wrong', { typed })] : []),
    ...(injury === null ? [say('visits.injury-wrong', { typed: textOf(fields, 'injury') })] : []),
    ...unknown.map((one) =>
      say('visits.seen-wrong', { typed: one, known: { all: seenSince.map((literal) => ({ literal })) } }),
    ),
  ]
  if (!read.ok || injury === null || problems.length > 0) return { ok: false, problems }
  const rating: Rating = {
    on: today,
    by: String(person.id),
    isFirstLook: (lookRatedOn(visits.plan, today) ?? nextLookOf(visits.plan))?.purpose === 'signs',
    plots: [...read.value],
    untreated,
    injury,
    regrowth: seen.includes('regrowth'),
    seedlings: seen.includes('seedlings'),
    rain: seen.includes('rain') ? 'yes' : 'no',
    mown: seen.includes('mown') ? 'yes' : 'no',
  }
  const wrong = checkRating(rating, { treatedOn: application.treatedOn, today, plots: treated })
  return wrong.length > 0 ? { ok: false, problems: wrong.map(sayRatingProblem) } : { ok: true, rating }
}

/** A step of the scale, 9 where nothing was said; null for anything else: no lawn is called unhurt by a slip. */
function readInjury(text: string): number | null {
  if (text === '') return 9
  return /^[1-9]$/.test(text) ? Number(text) : null
}
