import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { reply } from '#src/conversation/reply.ts'
import { asTyped, say } from '#src/conversation/text.ts'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { type Random, randomFrom } from '#src/season/random.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { type Database, type DatabaseAddress, openDatabase } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { loadWords } from '#src/words/load.ts'
import { speak } from '#src/words/speak.ts'
import { databaseOn } from '#tests/bench/postgres.ts'
import { type DiscordStandIn, startDiscord } from '#tests/discord-loopback/index.ts'
import { seedCrew } from '#tests/e2e-discord/seed.ts'
import { liveSettings } from '#tests/helpers/live-settings.ts'
import { textOf } from '#tests/messengers/discord/seen.ts'
import { type Copies, check, type Findings } from './check.ts'
import { faults, faultsOf } from './faults.ts'
import { openCrew } from './people.ts'
import { startSupervisor } from './supervisor.ts'

export interface OrdealOptions {
  readonly seed: number
  /** Processes killed without a word, at least. */
  readonly kills: number
  /** Runs at least this long, and until every fault was tried. */
  readonly seconds: number
  /** A server on which a database may be made; on SQLite without one. */
  readonly postgres?: string
  /** Names of the faults to try. @default all that the engine can have */
  readonly faults?: readonly string[]
  readonly tell?: (line: string) => void
}

export interface OrdealReport {
  readonly seed: number
  readonly kills: number
  readonly faults: Readonly<Record<string, number>>
  readonly findings: Findings
  readonly deeds: number
  readonly answered: number
  readonly reminders: number
  /** From the end of a process until the next said that it was ready; ms. */
  readonly comebackMs: { readonly median: number; readonly most: number }
  /** From a question after the trouble until its answer; ms. */
  readonly answerMs: { readonly median: number; readonly most: number }
  /** Processes that ended by themselves, by exit code or signal. */
  readonly ends: Readonly<Record<string, number>>
  readonly seconds: number
}

/** After any trouble somebody is answered again within this time, on a machine that does other work as well. */
const ANSWERS_WITHIN_MS = 30_000

/** The crew works while everything breaks that can; then the store is held against what people were told. */
export async function runOrdeal(options: OrdealOptions): Promise<OrdealReport> {
  const began = performance.now()
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-ordeal-'))
  const made = options.postgres === undefined ? null : await databaseOn(options.postgres)
  const address: DatabaseAddress = made?.address ?? {
    engine: 'sqlite',
    path: path.join(folder, 'crew.sqlite'),
  }
  const logFile = path.join(folder, 'bot.log')
  const random = randomFrom(options.seed)
  const platform = await startDiscord({ identifyIntervalMs: 0, heartbeatIntervalMs: 1500 })
  const store = await openDatabase(address, 'live')
  await seedCrew(store, platform)
  const supervisor = await startSupervisor({
    logFile,
    environment: liveSettings(platform, { address, files: path.join(folder, 'files') }),
  })
  const crew = openCrew(platform, random)
  const reminders = openReminders(store, platform, random)
  const counts: Record<string, number> = Object.fromEntries(
    (options.faults ?? faultsOf(address.engine)).map((name) => [name, 0]),
  )
  const answerTimesMs: number[] = []
  let kills = 0
  let isWell = false

  try {
    await supervisor.ready()
    // Something is at stake from the first kill on, however fast or slow the machine.
    await crew.logOne()
    while (
      kills < options.kills ||
      performance.now() - began < options.seconds * 1000 ||
      Object.values(counts).some((count) => count === 0)
    ) {
      await supervisor.ready()
      if (random.chance(0.5)) await reminders.plan()
      const least = Math.min(...Object.values(counts))
      const name = random.pick(Object.keys(counts).filter((one) => counts[one] === least))
      // Most rounds only kill: that is what a machine does to a process most often.
      const fault = least === 0 || random.chance(0.4) ? faults[name] : undefined
      const end = await fault?.({
        platform,
        supervisor,
        crew,
        database: address.engine === 'sqlite' ? address.path : '',
        random,
      })
      if (fault !== undefined) counts[name] = (counts[name] ?? 0) + 1
      for (let left = 1 + Math.floor(random.next() * 6); left > 0; left -= 1) {
        crew.act()
        if (random.chance(0.5)) await wait(random.next() * 30)
      }
      await wait(random.next() * 120)
      if (kills < options.kills && (fault === undefined || random.chance(0.5))) {
        await supervisor.kill()
        kills += 1
        // Sometimes once more, while it is still coming back.
        if (kills < options.kills && random.chance(0.15)) {
          await wait(random.next() * 600)
          if (!supervisor.isReady) kills += 1
          await supervisor.kill()
        }
      }
      await end?.()
      if (fault !== undefined || random.chance(0.1)) {
        await supervisor.ready()
        answerTimesMs.push(await crew.probe(ANSWERS_WITHIN_MS))
      }
      if (kills % 20 === 0 && kills > 0) options.tell?.(`${kills} kills, ${crew.deeds.length} requests`)
    }
    await supervisor.ready()
    answerTimesMs.push(await crew.probe(ANSWERS_WITHIN_MS))
    await crew.finishLogs()
    await reminders.settle(async () => supervisor.order({ clockMs: 120_000 }))
    const ending = await supervisor.stop()
    await store.close()
    const findings = await check({
      deeds: crew.deeds,
      reminders: reminders.seen(),
      database: address,
      crewKey: crewKeyOf(platform.world.guild(undefined).id),
    })
    const wrong = ending === 0 ? findings.wrong : [...findings.wrong, `it ended with ${ending} when told to`]
    const broken = platform.violations.map((one) => `${one.request}: ${one.path} ${one.code} ${one.message}`)
    isWell = wrong.length + findings.lost.length + findings.doubled.length + broken.length === 0
    return {
      seed: options.seed,
      kills,
      faults: counts,
      findings: { ...findings, wrong: [...wrong, ...broken] },
      deeds: crew.deeds.length,
      answered: crew.deeds.filter(({ fired }) => fired.response !== undefined).length,
      reminders: reminders.count,
      comebackMs: summary(supervisor.comebacksMs),
      answerMs: summary(answerTimesMs),
      ends: tally(supervisor.ends.map(String)),
      seconds: Math.round((performance.now() - began) / 1000),
    }
  } finally {
    await supervisor.stop()
    await store.close()
    await platform.stop()
    await made?.drop()
    if (isWell) rmSync(folder, { recursive: true, force: true })
    else options.tell?.(`The store and the log of the bot are left in ${folder}\n${lastLines(logFile)}`)
  }
}

/** What a copy says that may have come before. */
const MARK = speak(loadWords(), say('visits.repeated'), { locale: 'en', escape: (typed) => typed })

/** Messages that must come once: planned by somebody else who has the store open, as a second process would. */
function openReminders(store: Database, platform: DiscordStandIn, random: Random) {
  const planned: string[] = []
  const messages = () => [...platform.platform.messages.stored.values()].map(({ object }) => textOf(object))
  /** Nothing that a messenger would escape. */
  const wordsOf = (nonce: string) => `Trial message ${nonce.replace(/\D/g, '')} of the ordeal`
  const seen = () => {
    const all = messages()
    return new Map(
      planned.map((nonce): [string, Copies] => {
        const own = all.filter((text) => text.includes(wordsOf(nonce)))
        return [nonce, { messages: own.length, marked: own.filter((text) => text.includes(MARK)).length }]
      }),
    )
  }
  return {
    get count() {
      return planned.length
    },
    seen,
    async plan() {
      const nonce = `reminder-${planned.length + 1}`
      await write(store, async (db) => {
        const crew = await findCrew(db, crewKeyOf(platform.world.guild(undefined).id))
        const people = crewStore(db, crew?.id ?? 0)
        const person = await people.people.find(platform.world.user('demo.crew').id)
        await people.deliveries.plan(
          {
            personId: person?.id ?? 0,
            command: 'rate',
            reply: reply('answer', asTyped(wordsOf(nonce)), {
              safety: { about: ['drift'] },
              audience: 'person',
            }),
            nonce,
            dueAtMs: Date.now() + Math.floor(random.next() * 2000),
          },
          Date.now(),
        )
      })
      planned.push(nonce)
    },
    /** Waits until every message has come, moving the clock on past whatever lease a dead process left. */
    async settle(moveOn: () => Promise<void>) {
      await moveOn()
      const until = performance.now() + 90_000
      for (;;) {
        const left = [...seen().values()].filter(({ messages }) => messages === 0).length
        const open = await store.db
          .selectFrom('deliveries')
          .select('id')
          .where('sentAtMs', 'is', null)
          .where('nonce', 'in', planned)
          .execute()
        if ((left === 0 && open.length === 0) || performance.now() > until) return
        await wait(200)
      }
    },
  }
}

function summary(values: readonly number[]) {
  const sorted = [...values].sort((one, other) => one - other)
  return {
    median: Math.round(sorted[Math.floor(sorted.length / 2)] ?? 0),
    most: Math.round(sorted.at(-1) ?? 0),
  }
}

function tally(names: readonly string[]): Record<string, number> {
  const counts: Record<string, number> = {}
  for (const name of names) counts[name] = (counts[name] ?? 0) + 1
  return counts
}

const lastLines = (file: string) => readFileSync(file, 'utf8').split('\n').slice(-40).join('\n')
