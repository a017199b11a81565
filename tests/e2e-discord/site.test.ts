import { deflateSync } from 'node:zlib'
import { InteractionResponseType as Kind } from 'discord-api-types/v10'
import { expect, test } from 'vitest'
import { eachEngine } from '#tests/helpers/engines.ts'
import { buttonIn, isPrivate, textOf } from '#tests/messengers/discord/seen.ts'
import { expectQuiet, type OnDiscord, startCrew } from './crew.ts'

const lead = { user: 'demo.lead', channel: 'office' }
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
)
const photo = { name: 'gate.png', bytes: PNG, contentType: 'image/png' }
const PLACE = {
  't.name': 'Pretend Court 9',
  't.address': '9 Pretend Court, Noplace NC 27000',
  't.customer': '',
  't.mind': 'Dog in the yard; gate sticks',
}
const AREA = {
  't.name': 'front',
  't.size': '6000 ft2',
  't.turfs': 'tall fescue',
  't.use': 'lawn',
  't.seeded': '',
}

const kept = (on: OnDiscord) =>
  on.look(async (store) => {
    const [site] = await store.sites.list()
    if (site === undefined) return null
    const areas = await store.sites.listAreas(site.id)
    const files = await store.files.list('site', site.id)
    return { name: site.name, areas: areas.length, files: files.map(({ name, type }) => `${name} ${type}`) }
  })

eachEngine('sites on Discord', (place) => {
  test('two short forms, a wrong field, a photo in, a picture out', async () => {
    const on = await startCrew(place, { bare: true })
    const { platform } = on
    const opened = platform.slash({ name: 'site add', ...lead, options: { name: PLACE['t.name'] } })
    expect(JSON.stringify(await opened.modal())).toContain('"value":"Pretend Court 9"')
    const wrong = platform.submitModal({
      from: opened,
      fields: { ...PLACE, 't.address': '9 Pretend Court', 'f.photo': [photo] },
    })
    // A photo is fetched first, so waiting is said at once.
    expect((await wrong.firstResponse()).type).toBe(Kind.DeferredChannelMessageWithSource)
    const message = await wrong.message()
    expect(isPrivate(message)).toBe(true)
    expect(textOf(message)).toContain('needs to end in a 5-digit ZIP')
    const again = platform.press({ message, customId: buttonIn(message, 'Correct it') })
    await again.modal()
    const right = platform.submitModal({
      from: again,
      fields: { 't.address': PLACE['t.address'], 'f.photo': [photo] },
    })
    const second = await right.message()
    expect(textOf(second)).toContain('Pretend Court 9: now its first area')
    expect(await kept(on)).toBeNull()
    const area = platform.press({ message: second, customId: buttonIn(second, 'Fill it in') })
    await area.modal()
    const done = platform.submitModal({ from: area, fields: AREA })
    // The words come at once, the drawn picture and the photo in an edit.
    const first = await done.firstResponse()
    expect(first.files).toEqual([])
    const { files } = await done.edit()
    expect(files.map(({ contentType }) => contentType)).toEqual(['image/png', 'image/png'])
    const shown = await done.message()
    expect(textOf(shown)).toContain('Pretend Court 9 is in the list')
    expect(textOf(shown)).toContain('Dog in the yard; gate sticks')
    expect(shown.attachments).toHaveLength(2)
    done.sendAgain()
    expect(await kept(on)).toEqual({ name: 'Pretend Court 9', areas: 1, files: ['gate.png image/png'] })
    expectQuiet(on)
  })

  test('a photo given with the command is kept too, and shown with the site', async () => {
    const on = await startCrew(place, { bare: true })
    const { platform } = on
    const asked = platform.slash({ name: 'site add', ...lead, options: { photo } })
    expect((await asked.firstResponse()).type).toBe(Kind.DeferredChannelMessageWithSource)
    let message = await asked.message()
    for (const fields of [PLACE, AREA]) {
      const form = platform.press({ message, customId: buttonIn(message, 'Fill it in') })
      await form.modal()
      const sent = platform.submitModal({ from: form, fields })
      message = await sent.message()
      if (fields === AREA) await sent.edit()
    }
    expect((await kept(on))?.files).toEqual(['gate.png image/png'])
    const card = platform.slash({
      name: 'site show',
      user: 'demo.crew',
      channel: 'field',
      options: { site: 'Pretend Court 9' },
    })
    await card.message()
    const { files } = await card.edit()
    expect(files.map((file) => file.name)).toEqual(['1_site.png', '2_photo-1.png'])
    expectQuiet(on)
  })

  test('a file that is no picture is named, and everything that was typed stays', async () => {
    const on = await startCrew(place, { bare: true })
    const { platform } = on
    const opened = platform.slash({ name: 'site add', ...lead })
    await opened.modal()
    // Executables and archives are told by what is in them, not by what they are called.
    const wrongFile = {
      name: 'gate.png',
      bytes: Buffer.concat([Buffer.from([0x1f, 0x8b, 8]), deflateSync('x')]),
      contentType: 'image/png',
    }
    const sent = platform.submitModal({ from: opened, fields: { ...PLACE, 'f.photo': [wrongFile] } })
    const message = await sent.message()
    expect(textOf(message)).toContain('gate.png is not a kind of file that is taken here.')
    const again = platform.press({ message, customId: buttonIn(message, 'Correct it') })
    expect(JSON.stringify(await again.modal())).toContain(PLACE['t.address'])
    expectQuiet(on)
  })

  test('a form that somebody else opened stays theirs', async () => {
    const on = await startCrew(place, { bare: true, world: WITH_TWO_LEADS })
    const { platform } = on
    const asked = platform.slash({ name: 'site add', ...lead, options: { photo } })
    const message = await asked.message()
    const customId = buttonIn(message, 'Fill it in')
    const id = message.id
    // The message is private; a second lead who learned its button is refused all the same.
    const stored = platform.platform.messages.stored.get(id)
    if (stored === undefined) throw new Error('The message is gone')
    stored.onlyFor = undefined
    const other = platform.press({ message, customId, user: 'demo.lead2' })
    expect(textOf(await other.message())).toContain('Only demo.lead may press this')
    expectQuiet(on)
  })
})

const WITH_TWO_LEADS = {
  users: [{ name: 'demo.lead' }, { name: 'demo.lead2' }],
  guilds: [
    {
      name: 'Demo Grounds',
      roles: [{ name: 'leads', permissions: '32' }],
      channels: [{ name: 'field' }, { name: 'office' }],
      members: ['demo.lead', 'demo.lead2'].map((user) => ({ user, roles: ['leads'] })),
    },
  ],
}
