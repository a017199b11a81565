import type { Choice, Reply } from '#src/conversation/reply.ts'
import { reply } from '#src/conversation/reply.ts'
import { asTyped, say, type Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { recordName } from '#src/record/number.ts'
import type { ApplicationRecord } from '#src/record/record.ts'
import { type RuleSet, type RuleTables, ruleSetFor } from '#src/record/rule-set.ts'
import type { RecordRead } from '#src/records/read-record.ts'
import type { Crew } from '#src/store/crews.ts'
import { planSummary } from '#src/summary/plan.ts'
import { loadStateRules } from '../../data/states/load.ts'
import { orEveningBefore, orNextMorning } from './moments.ts'
import { isTask, type Notice, type NoticeKind, noticeKinds, noticesOf, watersDisagree } from './notice.ts'
import { noticeFacts, sayHolds, sayNow, sayWhoSays, untilFact } from './words.ts'

/** What planning needs of the tools: it also runs while a message is leaving. */
export type NoticeTools = Pick<Tools, 'store' | 'crew' | 'person' | 'nowMs' | 'canWrite'>

/** Everything about one record that its messages are made of. */
export interface Noticed {
  readonly notices: readonly Notice[]
  readonly rules: RuleSet
  readonly place: Text
}

let read: RuleTables | null = null
/** Read when first asked for, and kept. */
function tables(): RuleTables {
  read ??= loadStateRules()
  return read
}

/** What a record leaves to wait for and to do, with the labels that were in force for it. */
export async function noticed(record: ApplicationRecord, tools: NoticeTools): Promise<Noticed> {
  const { crew } = tools
  const rules = ruleSetFor(record.rules.state, tables())
  const entries = await entriesOf(record, tools)
  return {
    notices: noticesOf(record, { entries, rules, zone: crew.zone }),
    rules,
    place: await placeOf(record, tools),
  }
}

/** The revision that the record names, else the one in force. */
export async function entriesOf(record: ApplicationRecord, { store }: NoticeTools): Promise<LabelEntry[]> {
  const entries: LabelEntry[] = []
  for (const { name, revisionId } of recorded(record.products) ?? []) {
    const revision = revisionId === undefined ? undefined : await store.labels.getRevision(revisionId)
    const entry = revision?.body ?? (await store.labels.findByName(name))?.live?.body
    if (entry !== undefined) entries.push(entry)
  }
  return entries
}

/** Site and area as the crew calls them; else the place as it was described. */
export async function placeOf(record: ApplicationRecord, { store }: NoticeTools): Promise<Text> {
  const site = record.siteId === undefined ? undefined : await store.sites.get(record.siteId)
  const area = record.areaId === undefined ? undefined : await store.sites.getArea(record.areaId)
  if (site === undefined) {
    const words = recorded(record.placeWords)
    return words === undefined ? say('notices.record', { number: record.number }) : asTyped(words.words)
  }
  return area === undefined ? asTyped(site.name) : asTyped(`${site.name}, ${area.name}`)
}

const audiences = ['crew', 'mowing', 'watering', 'writer'] as const
type Receiver = (typeof audiences)[number]

/** Who is told: the persons that the lead has named for mowing and watering, else the crew in its channel. */
function receiverOf(kind: NoticeKind, { settings }: Crew): Receiver {
  if (kind === 'customer-copy') return 'writer'
  if (kind === 'no-mowing') return settings.notices.mowing === null ? 'crew' : 'mowing'
  if (kind === 'no-water' || kind === 'water-in')
    return settings.notices.watering === null ? 'crew' : 'watering'
  return 'crew'
}

async function addressee(receiver: Receiver, { crew, person, store }: NoticeTools) {
  const { mowing, watering } = crew.settings.notices
  const named = receiver === 'mowing' ? mowing : receiver === 'watering' ? watering : null
  const found = named === null ? undefined : await store.people.get(named)
  return found ?? person
}

const stems = [...audiences.map((one) => `first-${one}`), 'void', ...noticeKinds] as const
type Stem = (typeof stems)[number]

/** The same for every attempt to plan one message of one version of a record. */
function nonceOf(crewId: number, recordNumber: number, version: number, stem: Stem): string {
  return `${crewId}-notice-${recordNumber}-${version}-${stem}`
}

/** Nonces of everything that may have been planned for the versions of a record. */
function noncesOf(crewId: number, recordNumber: number, versions: number): string[] {
  return Array.from({ length: versions }, (_, at) =>
    stems.map((stem) => nonceOf(crewId, recordNumber, at + 1, stem)),
  ).flat()
}

/**
 * Plans every message that a record brings: what holds now, at once, and one more for each end of a wait and each task.
 * Called when the record is kept and, after its links are written, when it is amended: what an earlier version has
 * planned is taken back, and nothing that was told and still holds is told twice. The leads' next summary of the week,
 * which counts the record, is planned with them. Calling it again changes nothing.
 */
export async function planNotices(
  { row, current, links }: RecordRead,
  tools: NoticeTools,
): Promise<readonly Notice[]> {
  const { store, crew, canWrite } = tools
  const found = await noticed(current.record, tools)
  if (!canWrite) return found.notices
  const recordNumber = row.number
  const version = links.length
  const earlier = noncesOf(crew.id, recordNumber, version - 1)
  const told = toldIn(await store.deliveries.list(earlier))
  await store.deliveries.withdraw(earlier)
  const planned: Planned = { ...found, recordNumber, version, isChanged: told.size > 0 }
  await planFirst(
    planned,
    found.notices.filter((notice) => !told.has(keyOf('holds', notice))),
    tools,
  )
  for (const notice of found.notices)
    if (!told.has(keyOf('now', notice))) await planTimed(planned, notice, tools)
  await planSummary(tools)
  return found.notices
}

interface Planned extends Noticed {
  readonly recordNumber: number
  readonly version: number
  /** An earlier version has told something else. */
  readonly isChanged: boolean
}

const keyOf = (what: 'holds' | 'now', { kind, untilMs }: Pick<Notice, 'kind' | 'untilMs'>) =>
  `${what} ${kind} ${untilFact(untilMs)}`

/** What has left already, by kind and time. */
function toldIn(
  deliveries: readonly { readonly reply: Reply; readonly sentAtMs: number | null }[],
): ReadonlySet<string> {
  const told = new Set<string>()
  for (const { reply: sent, sentAtMs } of deliveries) {
    if (sentAtMs === null) continue
    const facts = new Map(sent.facts.map(({ name, value }) => [name, String(value)]))
    const kind = facts.get('notice')
    if (kind !== undefined) told.add(`now ${kind} ${facts.get('due') ?? untilFact(null)}`)
    for (const one of noticeKinds)
      if (facts.has(`until_${one}`)) told.add(`holds ${one} ${facts.get(`until_${one}`)}`)
  }
  return told
}

/** One message at once to each receiver, with everything that is still ahead. */
async function planFirst(planned: Planned, notices: readonly Notice[], tools: NoticeTools): Promise<void> {
  const { crew, nowMs, store } = tools
  const ahead = notices.filter(
    ({ kind, untilMs }) => kind !== 'customer-copy' && (untilMs === null || untilMs > nowMs),
  )
  const clash = watersDisagree(planned.notices)
  for (const receiver of audiences) {
    const own = ahead.filter(({ kind }) => receiverOf(kind, crew) === receiver)
    if (own.length === 0) continue
    const person = await addressee(receiver, tools)
    const hasClash = clash !== null && own.some(({ kind }) => kind === 'water-in' || kind === 'no-water')
    await store.deliveries.plan(
      {
        personId: person.id,
        command: 'notices',
        nonce: nonceOf(crew.id, planned.recordNumber, planned.version, `first-${receiver}`),
        dueAtMs: nowMs,
        reply: reply(
          hasClash ? 'heads-up' : 'answer',
          say(planned.isChanged ? 'notices.changed' : 'notices.first', { place: planned.place }),
          {
            lines: [
              ...own.map((notice) => sayHolds(notice, crew.zone)),
              ...(hasClash ? [say('notices.waters-disagree')] : []),
            ],
            facts: [
              { name: 'record', value: recordName(planned.recordNumber) },
              ...own.map(({ kind, untilMs }) => ({
                name: `until_${kind}`,
                value: untilFact(untilMs),
              })),
            ],
            audience: receiver === 'crew' ? 'crew' : 'person',
            safety: { about: ['bystanders'] },
          },
        ),
      },
      nowMs,
    )
  }
}

/** One message when a wait is over, or in good time before a task has to be done. */
async function planTimed(planned: Planned, notice: Notice, tools: NoticeTools): Promise<void> {
  const { crew, nowMs, store } = tools
  const dueAtMs = dueOf(notice, tools)
  if (dueAtMs === null) return
  const receiver = receiverOf(notice.kind, crew)
  const person = await addressee(receiver, tools)
  await store.deliveries.plan(
    {
      personId: person.id,
      command: 'notices',
      nonce: nonceOf(crew.id, planned.recordNumber, planned.version, notice.kind),
      dueAtMs,
      reply: reply('answer', sayNow(notice, planned.place, crew.zone, dueAtMs), {
        lines: [...sayWhoSays(notice, planned.rules)],
        facts: noticeFacts(notice, planned.recordNumber),
        choices: isTask(notice.kind) ? [doneChoice(planned.recordNumber, notice)] : [],
        audience: receiver === 'crew' ? 'crew' : 'person',
        safety: { about: ['bystanders'] },
      }),
    },
    nowMs,
  )
}

/** Anybody of the crew may have done it. */
export function doneChoice(record: number, { kind }: Notice): Choice {
  return {
    label: say('notices.done'),
    to: { step: 'done', value: { record, kind } },
    look: 'main',
    who: 'crew',
  }
}

export interface TaskDone {
  readonly by: string
  readonly atMs: number
}

/** Who has marked a task of a record as done; null while nobody has. */
export async function taskDone(
  { row, links }: Pick<RecordRead, 'row' | 'links'>,
  kind: NoticeKind,
  { store, crew }: Pick<NoticeTools, 'store' | 'crew'>,
): Promise<TaskDone | null> {
  for (let version = links.length; version > 0; version--) {
    const nonce = nonceOf(crew.id, row.number, version, kind)
    const asked = await store.turns.findByRequest(`deliver:${nonce}`)
    const closedBy = asked?.closedBy ?? null
    const answered = closedBy === null ? undefined : await store.turns.findByRequest(closedBy)
    const at = answered?.reply.facts.find(({ name }) => name === 'done_at')?.value
    if (answered !== undefined && typeof at === 'string')
      return { by: (await store.people.get(answered.personId))?.name ?? '', atMs: Date.parse(at) }
  }
  return null
}

const HOUR_MS = 3_600_000
/** How long before its end a task is called out again. Common practice, no source. */
const AHEAD_MS = 4 * HOUR_MS

const hoursOf = ({ settings }: Crew) => ({ from: settings.startsAt, to: settings.endsAt })

/** When to send it; null for what the first message has said already. */
function dueOf({ kind, untilMs }: Notice, { crew, nowMs }: NoticeTools): number | null {
  if (untilMs === null) return null
  const hours = hoursOf(crew)
  if (kind === 'water-in') {
    const inTimeMs = orEveningBefore(untilMs - AHEAD_MS, crew.zone, hours)
    return untilMs <= nowMs || inTimeMs <= nowMs ? null : inTimeMs
  }
  if (kind === 'customer-copy') return copyDue(untilMs, { crew, nowMs })
  const isOver = untilMs <= nowMs
  if (isOver && kind !== 'sign-down') return null
  return orNextMorning(Math.max(untilMs, nowMs), crew.zone, hours)
}

/** A copy that is due at once is asked for at once, a later one on the morning of its last day. */
function copyDue(untilMs: number, { crew, nowMs }: Pick<NoticeTools, 'crew' | 'nowMs'>): number {
  if (untilMs <= nowMs) return nowMs
  return Math.max(nowMs, orEveningBefore(untilMs - 12 * HOUR_MS, crew.zone, hoursOf(crew)))
}

/** Takes back what has not been sent for a void record, and tells whoever was told something that it does not hold. */
export async function withdrawNotices(
  { row, current, links }: RecordRead,
  tools: NoticeTools,
): Promise<void> {
  const { store, crew, nowMs, canWrite } = tools
  if (!canWrite) return
  const nonces = noncesOf(crew.id, row.number, links.length)
  const isTold = (await store.deliveries.list(nonces)).some(({ sentAtMs }) => sentAtMs !== null)
  await store.deliveries.withdraw(nonces)
  if (!isTold) return
  const place = await placeOf(current.record, tools)
  const number = recordName(row.number)
  await store.deliveries.plan(
    {
      personId: tools.person.id,
      command: 'notices',
      nonce: nonceOf(crew.id, row.number, links.length, 'void'),
      dueAtMs: nowMs,
      reply: reply('heads-up', say('notices.voided', { place, number }), {
        lines: [say('notices.voided-ask')],
        facts: [{ name: 'record', value: number }],
        safety: { about: ['bystanders'] },
      }),
    },
    nowMs,
  )
}
