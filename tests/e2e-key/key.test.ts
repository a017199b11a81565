import { expect, test, vi } from 'vitest'
import type { OnDiscord } from '#tests/e2e-discord/crew.ts'
import { everydayPlace } from '#tests/helpers/engines.ts'
import { buttonIn, buttonsOf, isPrivate, textOf } from '#tests/messengers/discord/seen.ts'
import { SITE, startStage } from './stage.ts'

const place = everydayPlace()

type Message = Awaited<ReturnType<ReturnType<OnDiscord['platform']['slash']>['message']>>

const crew = { user: 'demo.crew', channel: 'field' }
const SEEN = 'a grass, folded, stolons, blade 6 mm, blunt tip, no seed head'

/** Types /key, and presses one labeled button after another on what comes back. */
function walker({ platform }: OnDiscord) {
  return {
    key: (options: Record<string, string>) => platform.slash({ name: 'key', ...crew, options }).message(),
    press: (message: Message, label: string) =>
      platform.press({ user: 'demo.crew', message, customId: buttonIn(message, label) }).message(),
  }
}

/** The question as it stands in large letters. */
const titleOf = (message: Message) => /^##? (.*)$/m.exec(textOf(message))?.[1]

const labels = (message: Message) => buttonsOf(message).map(({ label }) => label)

test('the walk on buttons: an answer, back, a restart in the middle, and the same question after it', async () => {
  const stage = await startStage(place)
  const { key, press } = walker(stage)
  const first = await key({ site: SITE })
  expect(isPrivate(first)).toBe(true)
  expect(textOf(first)).toContain('Lawn here: Centipedegrass.')
  expect(labels(first)).toEqual(
    expect.arrayContaining(["Can't tell", 'Stop, flag it', 'Type it, add a photo']),
  )

  // A private message is changed in place, so what it said is read at once.
  const [answer, opening] = [labels(first)[0] ?? '', titleOf(first)]
  const second = await press(first, answer)
  expect(second.id, 'a private walk stays one message').toBe(first.id)
  expect(textOf(second)).toContain("Not sure yet: don't spray.")
  const question = titleOf(second)
  expect(question).not.toBe(opening)
  const back = await press(second, 'Back')
  expect(titleOf(back)).toBe(opening)
  const again = await press(back, answer)
  expect(titleOf(again)).toBe(question)

  await stage.restart()
  const after = await press(again, "Can't tell")
  expect(titleOf(after)).not.toBe(question)
  expect(textOf(after)).toContain("Not sure yet: don't spray.")
  expect(titleOf(await press(after, 'Back'))).toBe(question)
  expect(stage.errors).toEqual([])
  stage.platform.assertClean()
})

test('every question comes with its picture', async () => {
  const stage = await startStage(place)
  const { key } = walker(stage)
  const first = await key({ site: SITE })
  await vi.waitFor(
    () => {
      const now = stage.platform.messagesIn('field').find(({ id }) => id === first.id)
      expect(now?.attachments).toHaveLength(1)
      expect(now?.attachments[0]?.description).toMatch(/\? 1: .* 2: /)
    },
    { timeout: 10_000, interval: 50 },
  )
  expect(stage.errors).toEqual([])
  stage.platform.assertClean()
})

test('not sure, a reminder a week later, and the seed head decides', async () => {
  const stage = await startStage(place)
  const { platform } = stage
  const { key, press } = walker(stage)
  const asked = await key({ site: SITE, observed: SEEN })
  const held = await press(asked, 'Stop, flag it')
  expect(textOf(held)).toContain("Not sure. Don't spray.")
  expect(labels(held)).not.toContain('Products for it here')
  const days = await press(held, 'Wait for seed head')
  await press(days, '7 days')

  await stage.restart()
  platform.clock.advance(7 * 86_400_000)
  const due = await vi.waitFor(
    () => {
      const [message] = platform.directMessages('demo.crew')
      expect(textOf(message ?? {})).toContain('Time to look again')
      return message as Message
    },
    { timeout: 10_000, interval: 50 },
  )
  const heads = await platform
    .press({ user: 'demo.crew', message: due, customId: buttonIn(due, 'Yes, go on') })
    .message()
  expect(textOf(heads)).toContain('Is there a seed head?')

  const own = await key({ resume: '1', observed: 'seedhead=raceme-single' })
  expect(textOf(own)).toContain("The lawn's own grass: Centipedegrass")
  const weed = await key({ site: SITE, observed: `${SEEN}; seedhead=pair-plus; node_hairs=yes` })
  expect(textOf(weed)).toContain('Not all of that was understood')
  const named = await key({
    site: SITE,
    observed: 'vernation=folded; habit=stolons; blade 6 mm; tip=blunt; seedhead=pair-plus; node_hairs=yes',
  })
  expect(textOf(named)).toContain('Weed: carpetgrass')
  expect(labels(named)).toContain('Products for it here')
  expect(stage.errors).toEqual([])
  platform.assertClean()
})

test('what is typed completes from the key’s own words', async () => {
  const stage = await startStage(place)
  const typing = stage.platform.autocomplete({
    name: 'key',
    ...crew,
    options: { observed: 'vernation=folded; stolon' },
    focused: 'observed',
  })
  const { data } = await typing.firstResponse()
  expect(JSON.stringify(data)).toContain('vernation=folded; habit=stolons')
  stage.platform.assertClean()
})

test('a photo stays with the walk when its link has gone', async () => {
  const stage = await startStage(place)
  const { platform } = stage
  const photo = { name: 'plant.png', bytes: PNG, contentType: 'image/png' }
  const slash = platform.slash({ name: 'key', ...crew, options: { site: SITE, photo } })
  await slash.message()
  await vi.waitFor(() => expect(slash.edits.length).toBeGreaterThan(0), { timeout: 10_000, interval: 50 })
  const kept = await stage.look(async (store) => {
    const [walk] = await store.walks.listOpen(1)
    return store.files.list('walk', walk?.id ?? 0)
  })
  expect(kept).toMatchObject([{ name: 'plant.png', type: 'image/png', bytes: PNG.byteLength }])
  expect(stage.errors).toEqual([])
  platform.assertClean()
})

/** One pixel. */
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
)
