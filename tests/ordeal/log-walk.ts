import type { APIMessage } from 'discord-api-types/v10'
import type { Random } from '#src/season/random.ts'
import type { DiscordStandIn } from '#tests/discord-loopback/index.ts'
import type { Fired } from '#tests/discord-loopback/interactions/fired.ts'
import { HAND_CAN, SITE } from '#tests/e2e-discord/seed.ts'
import { buttonsOf, menuOf, textOf } from '#tests/messengers/discord/seen.ts'

/** One way through a conversation, from its command to the answer that ends it. */
export interface Walk {
  /** The command that begins it; asked again when nothing came back. */
  readonly begin: () => Fired
  /** Beginnings of what is pressed where it is offered, the first of them that is. */
  readonly labels: readonly string[]
  /** What is typed into fields of these ids. */
  readonly fields: Readonly<Record<string, string>>
  /** How the last answer reads. */
  readonly end: RegExp
}

/** Somebody waits this long for an answer, and then does the same again. */
const PATIENCE_MS = 3500
/** Steps and tries of one walk: whoever got so far and no further has given up. */
const MOST_TRIES = 30
/** The press that makes the record: in a hurry, it is made twice. */
const HURRIED = /^(Yes, record it|Poured into |Log mix )/

const POURED = `Poured into ${HAND_CAN}`
const NEXT_SITE = 'Log the next site'

const crew = { user: 'demo.crew', channel: 'field' }

/** An application of a booked product at a booked site; by its notes it is known in the store. */
export function logWalk(platform: DiscordStandIn, random: Random, notes: string): Walk {
  const options = {
    product: 'Tarnbrask 75 WDG',
    amount: random.pick(['0.1 oz', '0.05 oz', '3 g']),
    rate: '0.113 oz/1000 ft2',
    site: SITE,
    area: random.pick(['front', 'field']),
    coverage: 'strip',
    spots: 'missed strip',
    ground: '885 ft2',
    start: '7:30',
    weed: 'yellow nutsedge',
    hands_washed: true,
    unusual: false,
    sprayer: HAND_CAN,
    notes,
  }
  return { ...LOGGING, begin: () => platform.slash({ name: 'log', ...crew, options }) }
}

/** Mixed for a booked site, poured, and logged from the mix; more than one log may come out of it. */
export function mixedWalk(platform: DiscordStandIn, random: Random): Walk {
  const options = {
    product: 'Tarnbrask 75 WDG',
    tank: random.pick(['1 gal', '2 gal']),
    sprayer: HAND_CAN,
    site: SITE,
    area: random.pick(['front', 'field']),
    weed: 'yellow nutsedge',
    spots: 'other',
  }
  return { ...LOGGING, begin: () => platform.slash({ name: 'mix', ...crew, options }) }
}

const LOGGING = {
  labels: [
    'Yes, record it',
    'Fill it in',
    'Washed, all went well',
    'Spots',
    'Other spots',
    POURED,
    'Log mix ',
  ],
  fields: {
    't.started_at': '7:30',
    't.mix_drawn': '1/4 gal',
    't.treated_area': '500 ft2',
    'c.area_basis': 'measured',
    't.place_words': 'strip along the north fence',
    't.site': 'lawn; tall fescue',
  },
  end: /R\d+ is recorded/,
}

/** A record is amended: what its notes say, how much went on, or that it never was. */
export function amendWalk(platform: DiscordStandIn, random: Random, record: string, why: string): Walk {
  const part = random.pick(['Notes', 'What went on', `Void ${record}`])
  return {
    begin: () => platform.slash({ name: 'record amend', ...crew, options: { record } }),
    labels: [part, 'Fill it in'],
    fields: { 't.notes': `Noted later: ${why}`, 't.amount': random.pick(['2 g', '0.07 oz']), 't.why': why },
    end: /R\d+ is (amended|void)/,
  }
}

/** Another log out of the same mix, where the answer to the last one offers it. */
export function nextSiteWalk(platform: DiscordStandIn, message: APIMessage): Walk | null {
  const button = buttonsOf(message).find(({ label, disabled }) => label === NEXT_SITE && !disabled)
  if (button === undefined) return null
  return { ...LOGGING, begin: () => platform.press({ message, customId: button.customId }) }
}

/** One request of a walk. */
export interface Step {
  readonly fired: Fired
  /** The first of the walk, or that once more. */
  readonly begins: boolean
  /** The message below which "poured" was pressed. */
  readonly pouredBelow: string | null
}

/** Goes through a conversation step by step; each request is told of. Its last message; null when it had no end. */
export async function walkThrough(
  platform: DiscordStandIn,
  random: Random,
  walk: Walk,
  tell: (step: Step) => void,
): Promise<APIMessage | null> {
  let act: Act = { label: '', below: null, go: walk.begin }
  for (let tries = 0; tries < MOST_TRIES; tries += 1) {
    let fired: Fired
    try {
      fired = act.go()
    } catch {
      // What was to be pressed went away meanwhile: another press has been answered.
      return null
    }
    const pouredBelow = act.label === POURED ? act.below : null
    const begins = act.go === walk.begin
    tell({ fired, begins, pouredBelow })
    if (HURRIED.test(act.label) && random.chance(0.3)) tell({ fired: act.go(), begins, pouredBelow })
    const seen = await seenOf(fired)
    if (seen?.kind === 'message' && walk.end.test(textOf(seen.message))) {
      // The platform may tell once more of a press that is long done with.
      if (random.chance(0.3)) fired.sendAgain()
      return seen.message
    }
    const next = seen === null ? act : nextOf(platform, walk, seen, fired)
    if (next === null) return null
    act = next
  }
  return null
}

/** Something that can be done now, and again while nothing comes of it. */
interface Act {
  readonly label: string
  readonly below: string | null
  readonly go: () => Fired
}

type Seen = { readonly kind: 'form' } | { readonly kind: 'message'; readonly message: APIMessage }

const MODAL = 9

/** What came back; null when nothing did in time. */
async function seenOf(fired: Fired): Promise<Seen | null> {
  try {
    const { type } = await fired.firstResponse(PATIENCE_MS)
    if (type === MODAL) return { kind: 'form' }
    return { kind: 'message', message: await fired.message(PATIENCE_MS) }
  } catch {
    return null
  }
}

function nextOf(platform: DiscordStandIn, walk: Walk, seen: Seen, fired: Fired): Act | null {
  if (seen.kind === 'form') {
    const form = JSON.stringify(fired.response?.data)
    const fields = Object.fromEntries(
      Object.entries(walk.fields).filter(([id]) => form.includes(`"custom_id":"${id}"`)),
    )
    return { label: '', below: null, go: () => platform.submitModal({ from: fired, fields }) }
  }
  const { message } = seen
  const label = labelOf(walk, message)
  if (label === undefined) return null
  const button = buttonsOf(message).find((one) => one.label === label && !one.disabled)
  if (button !== undefined) {
    const press = () => platform.press({ message, customId: button.customId })
    return { label, below: message.id, go: press }
  }
  const menu = menuOf(message)
  const value = menu.values[menu.labels.indexOf(label)] ?? ''
  const select = () => platform.select({ message, customId: menu.customId, values: [value] })
  return { label, below: message.id, go: select }
}

/** The first that is offered and can be pressed, among buttons or in a menu. */
function labelOf(walk: Walk, message: APIMessage): string | undefined {
  const buttons = buttonsOf(message).flatMap(({ label, disabled }) => (disabled ? [] : [label]))
  const offered = [...buttons, ...menuLabels(message)]
  for (const start of walk.labels) {
    const found = offered.find((label) => label.startsWith(start))
    if (found !== undefined) return found
  }
  return undefined
}

function menuLabels(message: APIMessage): readonly string[] {
  try {
    return menuOf(message).labels
  } catch {
    return []
  }
}
