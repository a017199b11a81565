import { type Reply, stepOf } from '#src/conversation/reply.ts'
import type { RoomSession, Shown } from '#src/messengers/room/session.ts'
import type { Habits } from './habits.ts'
import type { PlannedMix } from './plan.ts'
import type { Random } from './random.ts'

/** More questions than this about one mix would be a loop. */
const MOST_QUESTIONS = 8

export interface Talk {
  /** Every reply, the first question first. */
  readonly replies: readonly Reply[]
  /** Poured: it went on the ground. */
  readonly poured: boolean
}

/** Asks for one mix, answers what is asked back, and pours where there is an amount. */
export async function talkThrough(
  planned: PlannedMix,
  session: RoomSession,
  { habits, random }: { readonly habits: Habits; readonly random: Random },
): Promise<Talk> {
  const options = Object.entries(planned.options).map(([name, value]) => `${name}:"${value}"`)
  let shown = await typed(session, `/mix ${options.join(' ')}`)
  const replies = [shown.answered.reply]
  for (let asked = 0; asked < MOST_QUESTIONS; asked++) {
    const line = replyTo(shown.answered.reply, planned, habits, random)
    if (line === null) break
    shown = await typed(session, line)
    replies.push(shown.answered.reply)
  }
  const amount = shown.answered.reply
  const pour = amount.choices.findIndex((choice) => stepOf(choice)?.step === 'poured')
  if (pour < 0) return { replies, poured: false }
  await typed(session, `> ${pour + 1}`)
  return { replies, poured: true }
}

async function typed(session: RoomSession, line: string): Promise<Shown> {
  const shown = (await session.type(line)).at(-1)
  if (shown === undefined) throw new Error(`Nothing came back for: ${line}`)
  return shown
}

/** What the person types next; null when nothing is asked, or when it ends here. */
function replyTo(reply: Reply, planned: PlannedMix, habits: Habits, random: Random): string | null {
  const press = (wanted: (value: Record<string, unknown>) => boolean) => {
    const at = reply.choices.findIndex((choice) =>
      wanted((stepOf(choice)?.value ?? {}) as Record<string, unknown>),
    )
    return at < 0 ? null : `> ${at + 1}`
  }
  switch (reply.title.say) {
    case 'mixing.which-ground':
      return press(({ spots }) => spots === (planned.sameGround ? 'same' : 'other'))
    case 'mixing.poured-before': {
      const now = random.chance(habits.rinsesBetween) ? 'cleaned' : 'emptied'
      return press((value) => value['@contents'] === now)
    }
    case 'label.dormant-unknown':
      return press(({ dormant }) => dormant === false)
    case 'mixing.no-calibration':
    case 'mixing.calibration-hold':
      return '= test_ground:"500 ft2" test_used:"0.6 gal"'
    case 'mixing.no-output':
      return '= output:"1 gal/1000 ft2"'
  }
  if (reply.outcome === 'hold') return press((value) => value['@contents'] === 'cleaned')
  return reply.outcome === 'question' && reply.choices.length > 0
    ? `> ${1 + Math.floor(random.next() * reply.choices.length)}`
    : null
}
