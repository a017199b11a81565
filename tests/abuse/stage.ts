import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll } from 'vitest'
import { commands } from '#commands/index.ts'
import { type Bot, openBot } from '#src/bot.ts'
import type { Ask, Speaker } from '#src/conversation/ask.ts'
import { writeToken } from '#src/conversation/token.ts'
import type { Answered } from '#src/desk/desk.ts'
import { renderPages } from '#src/messengers/discord/notice.ts'
import { renderMessage } from '#src/messengers/discord/render.ts'
import { demoSpeaker, seedDemo } from '#src/messengers/room/demo.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { NEWEST_SCHEMA } from '#src/store/migrate.ts'
import { digester, lineOf, rowsOf } from '#src/store/rows.ts'
import { schemaAt } from '#src/store/schema-at.ts'
import { type Transaction, write } from '#src/store/transaction.ts'
import { Findings } from '#tests/discord-loopback/rules/findings.ts'
import { checkMessage } from '#tests/discord-loopback/rules/message.ts'
import { NOON_MS, speaker } from '#tests/helpers/asks.ts'
import { freshAddress } from '#tests/helpers/fresh-address.ts'
import { aCrew, anArea, aPerson, aProduct, aSite, aSprayer } from '#tests/helpers/rows.ts'
import { loadDemo } from '../../data/demo/load.ts'
import type { Filled, Move } from './nasty.ts'

/** Stands in everything that the other crew keeps. */
export const MARK = 'Zyzzyva'
export const OTHER: Speaker = speaker({
  crewKey: 'test:other',
  crewName: `${MARK} Grounds`,
  personKey: 'olga',
})

export interface AbuseStage {
  readonly bot: Bot
  readonly member: Speaker
  readonly lead: Speaker
  /** Names that the crew itself uses, and those of the other crew. */
  readonly names: readonly string[]
  /** Errors that nobody expected. */
  readonly errors: unknown[]
  /** A hash over every row of the other crew. */
  otherRows(): Promise<string>
  /** A command and what somebody does with its replies; every reply on the way. */
  play(
    by: Speaker,
    command: string,
    options: Record<string, unknown>,
    moves: readonly Move[],
  ): Promise<Answered[]>
}

/** The demo crew beside another one that has a row of most things, with every command at hand. */
export async function openStage(): Promise<AbuseStage> {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-abuse-'))
  const errors: unknown[] = []
  const demo = loadDemo()
  const bot = await openBot({
    address: await freshAddress(),
    purpose: 'practice',
    filesFolder: folder,
    zone: demo.crew.zone,
    commands,
    fetchFile: async () => new Uint8Array([1]),
    reportError: (error, about) => errors.push({ error, about }),
    slowsFloods: false,
  })
  afterAll(async () => {
    await bot.close()
    rmSync(folder, { recursive: true, force: true })
  })
  await seedDemo(bot.database, demo, demo.crew.zone, NOON_MS)
  const otherId = await write(bot.database, fillOther)
  let asked = 0
  const base = (by: Speaker) => {
    asked += 1
    return { id: `ask-${asked}`, by, atMs: NOON_MS + asked * 1000 }
  }
  const shapes = (await schemaAt(NEWEST_SCHEMA)).filter(({ columns }) => columns.includes('crew_id'))
  return {
    bot,
    member: demoSpeaker(demo, 'crew', 'en'),
    lead: demoSpeaker(demo, 'lead', 'es'),
    names: [
      ...demo.book.map(({ name }) => name),
      ...demo.sites.flatMap(({ name, areas }) => [name, ...areas.map((area) => area.name)]),
      ...demo.sprayers.map(({ name }) => name),
      ...demo.people.map(({ name }) => name),
      MARK,
      `${MARK} site`,
      `${MARK} can`,
      `${MARK} mix`,
    ],
    errors,
    async otherRows() {
      const digest = digester()
      for (const shape of shapes) {
        const at = shape.columns.indexOf('crew_id')
        for await (const page of rowsOf(bot.database.db, shape))
          digest.add(page.filter((cells) => cells[at] === otherId).map(lineOf))
      }
      return digest.digest().sha256
    },
    async play(by, command, options, moves) {
      const first = { ...base(by), kind: 'run', command, options } as Ask
      const replies = [await bot.desk.answer(first)]
      for (const move of moves) {
        const before = replies.at(-1)
        if (before?.turnId == null) break
        const ask = askOf(base(by), before, move)
        if (ask !== null) replies.push(await bot.desk.answer(ask))
      }
      return replies
    },
  }
}

function askOf(base: Pick<Ask, 'id' | 'by' | 'atMs'>, { reply, turnId }: Answered, move: Move): Ask | null {
  const choice = (n: number | 'form') => writeToken({ turnId: turnId ?? 0, choice: n })
  if (move.kind === 'press')
    return {
      ...base,
      kind: 'press',
      // Mostly a choice that is there, sometimes one that is not.
      token: choice(1 + (move.choice < 20 ? move.choice % Math.max(reply.choices.length, 1) : move.choice)),
    }
  if (move.kind === 'form') return { ...base, kind: 'press', token: choice('form') }
  const fields: Filled = Object.fromEntries(
    (reply.form?.fields ?? []).map(({ name, kind, options = [] }, at) => {
      const words = move.words[at] ?? ''
      if (kind === 'file') return [name, []]
      if (kind === 'choice')
        return [name, options[words.length % Math.max(options.length, 1)]?.value ?? words]
      if (kind === 'choices')
        return [name, options.slice(0, 1 + (words.length % 3)).map(({ value }) => value)]
      return [name, words]
    }),
  )
  return { ...base, kind: 'submit', token: choice('form'), fields } as Ask
}

async function fillOther(db: Transaction): Promise<number> {
  const crew = await aCrew(db, { key: OTHER.crewKey, name: `${MARK} Grounds` })
  const store = crewStore(db, crew.id)
  const person = await aPerson(store, { key: OTHER.personKey, name: `${MARK} Olga` })
  const site = await aSite(store, { name: `${MARK} site`, address: `${MARK} street` })
  await anArea(store, site.id, { name: `${MARK} area` })
  await aSprayer(store, { name: `${MARK} can` })
  await aProduct(store, person.id, { name: `${MARK} mix` })
  const turn = await store.turns.create({
    requestId: 'other',
    personId: person.id,
    command: 'rate',
    asked: { mark: MARK },
    atMs: NOON_MS,
    day: '2026-05-04',
  })
  await store.incidents.open({
    personId: person.id,
    turnId: turn?.id ?? 0,
    words: MARK,
    createdAtMs: NOON_MS,
  })
  return crew.id
}

/** What the messenger would not take of an answer, in both languages. */
export function complaintsAbout(bot: Bot, answered: Answered): string[] {
  return ['en', 'es'].flatMap((locale) => {
    const findings = new Findings()
    const whole = renderMessage(bot.words, answered, { shared: false, locale, files: { kind: 'coming' } })
    const pages = renderPages(bot.words, answered, { locale, mostPages: 5 })
    for (const body of [whole, ...pages])
      checkMessage(JSON.parse(JSON.stringify(body)), [], findings, { use: 'reply', fileNames: [] })
    return [...findings.breaches, ...findings.warnings].map((one) => `${locale} ${one.path}: ${one.message}`)
  })
}
