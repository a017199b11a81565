import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import fc from 'fast-check'
import { describe, expect, onTestFinished, test } from 'vitest'
import { stepOf } from '#src/conversation/reply.ts'
import { plants } from '#src/plants.ts'
import { openRoom, type Said, type Typing } from './open-room.ts'

const BANK = '/key site:"Tolverdine Office Park" area:"South bank"'
/** A grass on the centipedegrass of the demo's South bank, with everything that can be seen without a head. */
const SEEN = 'a grass, folded, stolons, blade 6 mm, blunt tip, no seed head'
const NUTSEDGE =
  'group=sedge; stem_section=triangular; underground=tubers-single; seedhead=umbel-spikes; seedhead_color=yellow-brown; leaf_arrangement=3-ranked'

/** Presses the choice with this label. */
async function press(typing: Typing, from: Said, label: string): Promise<Said> {
  const at = from.choices.indexOf(label)
  if (at < 0) throw new Error(`No choice "${label}" among ${from.choices.join(' | ')}`)
  return typing(`> ${at + 1}`)
}

/** Steps that lead towards a product. */
const stepsOf = ({ shown }: Said) => shown.answered.reply.choices.map((choice) => stepOf(choice)?.step)
const leadsToMix = (said: Said) => stepsOf(said).some((step) => step === 'products' || step === 'mix')

describe('one story: carpetgrass or the lawn’s own centipedegrass', () => {
  // Carpetgrass: two or more branches and bearded joints; centipedegrass: one curved spike. Sources: Flora of North
  // America vol. 25 (Axonopus, Eremochloa); "a pair with mostly one more below": common practice, no source.
  test('without a head it holds, with all four names and no way to a mix', async () => {
    const bex = (await openRoom()).as('bex')
    const first = await bex(`${BANK} observed:"${SEEN}"`)
    expect(first.facts).toMatchObject({ result: 'hold' })
    expect(first.facts).not.toHaveProperty('taxon')
    for (const name of ['Centipedegrass', 'Common carpetgrass', 'Tropical carpetgrass', 'St. Augustinegrass'])
      expect(first.facts.remaining).toContain(name)
    expect(leadsToMix(first)).toBe(false)
    const held = await press(bex, first, 'Stop, flag it')
    expect(held.screen[0]).toBe('hold: Not sure. Don’t spray.'.replace('’', "'"))
    expect(held.lines.join('\n')).toContain('To tell them apart, look at: seed head')
    expect(held.lines.join('\n')).toContain('against a single spike (common practice, no source)')
    expect(leadsToMix(held)).toBe(false)
  })

  test('a week later a reminder comes, and a pair with one below and bearded joints is carpetgrass', async () => {
    const bex = (await openRoom()).as('bex')
    const held = await press(bex, await bex(`${BANK} observed:"${SEEN}"`), 'Stop, flag it')
    const asked = await press(bex, held, 'Wait for seed head')
    expect(asked.choices).toEqual(['3 days', '7 days', '14 days', 'By degree days', 'Cancel'])
    const planned = await bex('> 2')
    expect(planned.title).toBe('You will be asked again on Mon, May 11, 2026')
    const due = await bex('+ 7 days')
    expect(due.title).toBe('Time to look again: is there a seed head now?')
    expect(due.lines[0]).toBe('Where: Tolverdine Office Park, South bank')

    const question = await press(bex, due, 'Yes, go on')
    expect(question.facts.question).toBe('seedhead')
    const other = await press(
      bex,
      question,
      question.choices.find((one) => one.endsWith('pair, one below')) ?? '',
    )
    const named = leadsToMix(other)
      ? other
      : await bex(`/key resume:${other.facts.walk} observed:"node_hairs=yes"`)
    expect(named.facts).toMatchObject({ result: 'weed', taxon: 'Axonopus compressus' })
    expect(named.facts.group).toBe('Axonopus compressus; Axonopus fissifolius')
    expect(named.title).toBe('Weed: carpetgrass (Tropical carpetgrass or Common carpetgrass)')
    expect(named.lines.join('\n')).toContain("Ruled out: this lawn's own Centipedegrass.")
  })

  test('a single spike is the lawn’s own grass, and nothing leads to a product', async () => {
    const bex = (await openRoom()).as('bex')
    const first = await bex(`${BANK} observed:"${SEEN}"`)
    await bex('+ 7 days')
    const own = await bex(`/key resume:${first.facts.walk} observed:"seedhead=raceme-single"`)
    expect(own.outcome).toBe('hold')
    expect(own.facts).toMatchObject({ result: 'own-turf', taxon: 'Eremochloa ophiuroides' })
    expect(own.title).toContain("Don't spray")
    expect(leadsToMix(own)).toBe(false)
  })
})

describe('one line with turf, guess and what was seen', () => {
  test.each([
    ['ids', 'vernation=folded; habit=stolons; blade_width_mm=6; tip=blunt; seedhead=none-seen', 'hold'],
    ['everyday words', SEEN, 'hold'],
    ['a sedge', NUTSEDGE, 'weed'],
  ])('%s', async (_, observed, result) => {
    const said = await (await openRoom()).as('bex')(
      `/key turf:"centipedegrass" guess:"carpetgrass" observed:"${observed}"`,
    )
    expect(said.facts.result).toBe(result)
    expect(said.outcome).toBe(result === 'weed' ? 'answer' : 'question')
  })

  test('what cannot be understood is asked about, and nothing is concluded from the rest', async () => {
    const bex = (await openRoom()).as('bex')
    const said = await bex('/key turf:centipedegrass observed:"seedhead=pair-plus; node_hairs=yes; wobble=3"')
    expect(said.screen.slice(0, 2)).toEqual([
      'question: Not all of that was understood',
      '“wobble” says nothing that this key asks about.',
    ])
    expect(said.facts).toMatchObject({ result: 'hold' })
    expect(leadsToMix(said)).toBe(false)
    const corrected = await bex(`= observed:"${SEEN}"`)
    expect(corrected.facts.result).toBe('hold')
    expect(corrected.facts.walk).toBe(said.facts.walk)
  })

  test('a guess that is no plant of the key is left aside and said so', async () => {
    const said = await (await openRoom()).as('bex')(
      `/key turf:centipedegrass guess:"qqqqq" observed:"${SEEN}"`,
    )
    expect(said.lines[0]).toBe('“qqqqq” is no plant of this key, so the guess was left aside.')
  })
})

describe('which grass is this lawn', () => {
  test('is asked first when nobody has said it, and decides what is guarded', async () => {
    const bex = (await openRoom()).as('bex')
    const first = await bex('/key')
    expect(first.title).toBe('Which grass is this lawn?')
    expect(first.facts.question).toBe('turf')
    const next = await press(bex, first, 'St. Augustinegrass')
    expect(next.lines).toContain('Lawn here: St. Augustinegrass.')
    const unknown = await press(bex, await bex('/key'), 'Nobody knows')
    expect(unknown.lines).toContain('Lawn here: grass not known yet.')
  })

  test('a slip of the finger is asked about, never guessed', async () => {
    const bex = (await openRoom()).as('bex')
    const said = await bex(`/key turf:"centipedgras" observed:"${SEEN}"`)
    expect(said.screen[0]).toBe('question: Which lawn grass is “centipedgras”?')
    expect(said.facts.result).toBe('hold')
    const next = await press(bex, said, 'Centipedegrass')
    expect(next.facts.remaining).toContain('Centipedegrass')
  })

  test('a living overseed is guarded beside the permanent grass', async () => {
    const said = await (await openRoom()).as('bex')('/key site:"Ospelwick School" area:"Soccer field"')
    expect(said.lines).toContain('Lawn here: Hybrid bermudagrass and Perennial ryegrass.')
  })

  test('after it has died it is not', async () => {
    const bex = (await openRoom()).as('bex')
    await bex('+ 200 days')
    const said = await bex('/key site:"Ospelwick School" area:"Soccer field"')
    expect(said.lines).toContain('Lawn here: Hybrid bermudagrass.')
  })

  test('of several areas one is chosen first', async () => {
    const bex = (await openRoom()).as('bex')
    const said = await bex('/key site:"Tolverdine Office Park"')
    expect(said.choices).toEqual(['North lawn', 'South bank'])
    expect((await bex('> 2')).lines).toContain('Lawn here: Centipedegrass.')
  })
})

describe('a walk', () => {
  test('goes back one answer, starts over, and shows what was answered', async () => {
    const bex = (await openRoom()).as('bex')
    const first = await bex(BANK)
    const second = await bex('> 1')
    expect(second.shown.presented.working).toHaveLength(1)
    expect(second.choices).toEqual(
      expect.arrayContaining(["Can't tell", 'Back', 'Start over', 'Stop, flag it']),
    )
    const third = await press(bex, second, "Can't tell")
    expect(third.facts.question).not.toBe(second.facts.question)
    const again = await press(bex, third, 'Back')
    expect(again.facts).toEqual(second.facts)
    const over = await press(bex, again, 'Start over')
    expect(over.facts).toEqual(first.facts)
  })

  test('"can’t tell" changes nothing but the next question', async () => {
    const bex = (await openRoom()).as('bex')
    const before = await bex(`${BANK} observed:"${SEEN}"`)
    const after = await press(bex, before, "Can't tell")
    expect(after.facts.remaining).toBe(before.facts.remaining)
    expect(after.facts.question).not.toBe(before.facts.question)
  })

  test('is found by the number of any of its answers, and by a list', async () => {
    const bex = (await openRoom()).as('bex')
    const first = await bex(BANK)
    const second = await bex('> 1')
    const found = await bex(`/key resume:${second.number}`)
    expect(found.facts).toEqual(second.facts)
    const list = await bex('/key resume:list')
    expect(list.title).toBe('One open walk')
    expect(list.lines[0]).toContain(`${first.number}: half asked, Tolverdine Office Park, South bank`)
    expect((await bex('> 1')).facts).toEqual(second.facts)
    expect((await bex('/key resume:4711')).title).toBe('There is no walk 4711')
  })

  test('many shapes come on two pages that hold every shape once', async () => {
    const bex = (await openRoom()).as('bex')
    const first = await bex(`${BANK} seed_head:yes`)
    expect(first.facts.question).toBe('seedhead')
    const others = await press(bex, first, 'Other shapes')
    const shapes = [first, others].flatMap(({ shown }) =>
      shown.answered.reply.choices.flatMap((choice) => {
        const to = stepOf(choice)
        return to?.step === 'answer' ? ((to.value as { states?: string[] }).states ?? []) : []
      }),
    )
    const all = plants()
      .characters.find(({ id }) => id === 'seedhead')
      ?.states.map(({ id }) => id)
    expect(shapes.sort()).toEqual(all?.sort())
    expect((await press(bex, others, 'First page')).facts).toEqual(first.facts)
  })

  test('takes what is typed in the middle of it', async () => {
    const bex = (await openRoom()).as('bex')
    await bex(BANK)
    const typed = await bex(`= observed:"${SEEN}"`)
    expect(typed.shown.presented.working).toHaveLength(6)
  })

  test('offers at most 25 choices, of which buttons fit a phone', async () => {
    const bex = (await openRoom()).as('bex')
    for (const line of [BANK, `${BANK} seed_head:yes`, `${BANK} observed:"${SEEN}"`]) {
      const { choices } = await bex(line)
      expect(choices.length).toBeLessThanOrEqual(25)
      for (const label of choices) expect(label.length, label).toBeLessThanOrEqual(20)
    }
  })
})

describe('whatever is answered', () => {
  test('only an identified weed leads on to products', async () => {
    const bex = (await openRoom()).as('bex')
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(BANK, '/key turf:bermudagrass', '/key turf:"tall fescue"', '/key turf:unknown'),
        fc.array(fc.nat(), { minLength: 3, maxLength: 14 }),
        async (start, picks) => {
          let said = await bex(start)
          for (const pick of picks) {
            const { result, question } = said.facts
            // Where the lawn is not known yet, it is asked for first, and guarded.
            expect(leadsToMix(said)).toBe(result === 'weed' && question !== 'turf')
            if (said.choices.length === 0 || stepsOf(said)[0] === 'mix') break
            said = await bex(`> ${(pick % said.choices.length) + 1}`)
            if (stepsOf(said).includes('mix') || said.facts.products !== undefined) {
              expect(said.facts.result).toBe('weed')
              break
            }
          }
        },
      ),
      { numRuns: 25, seed: 7 },
    )
  }, 40_000)
})

describe('from an identified weed', () => {
  const LINE = `${BANK} observed:"${NUTSEDGE}"`

  test('one press shows the book’s products for it on this lawn, the next is the mix, filled in', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const weed = await bex(LINE)
    expect(weed.facts).toMatchObject({ result: 'weed', taxon: 'Cyperus esculentus' })
    const products = await press(bex, weed, 'Products for it here')
    expect(products.choices[0]).toBe('Mix Tarnbrask 75 WDG')
    const mix = await bex('> 1')
    expect(mix.screen[0]).toBe('question: How much mix?')
    const output = await bex('= tank:"2 gal"')
    const answer = await bex('= output:"1 gal/1000 ft2"')
    expect(answer.shown.answered.reply.facts).toEqual(
      expect.arrayContaining([expect.objectContaining({ name: 'product', value: 'Tarnbrask 75 WDG' })]),
    )
    expect(answer.lines.join('\n')).not.toContain('No site given')
    const kept = await room.store((store) => store.turns.list({ command: 'mix', limit: 9 }))
    expect(kept.map(({ number }) => String(number))).toEqual([answer.number, output.number, mix.number])
  })

  test('a lawn on which no label of the book lists it gets no product', async () => {
    const bex = (await openRoom()).as('bex')
    const weed = await bex(`/key turf:buffalograss observed:"${NUTSEDGE}"`)
    const none = await press(bex, weed, 'Products for it here')
    expect(none.outcome).toBe('heads-up')
    expect(stepsOf(none)).toEqual(['here'])
  })

  test('with the turf unknown, the turf is asked before any product', async () => {
    const bex = (await openRoom()).as('bex')
    const weed = await bex(`/key turf:unknown observed:"${NUTSEDGE}"`)
    expect(weed.facts.result).toBe('weed')
    expect((await press(bex, weed, 'Products for it here')).title).toBe('Which grass is this lawn?')
  })

  test('words of exposure stop it like any other mix', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const products = await press(bex, await bex(LINE), 'Products for it here')
    expect((await room.as('bex')('/key observed:"got spray in my eye"')).title).toBe('Emergency')
    expect(products.choices[0]).toBe('Mix Tarnbrask 75 WDG')
    const stopped = await bex('> 1')
    expect(stopped.outcome).toBe('refusal')
    expect(stopped.facts).toEqual({})
  })
})

describe('a flagged plant', () => {
  test('is told to the leads, and a lead’s name for it stands under the lead’s name', async () => {
    const room = await openRoom()
    const [bex, odalys] = [room.as('bex'), room.as('odalys')]
    const held = await press(bex, await bex(`${BANK} observed:"${SEEN}"`), 'Stop, flag it')
    const flagged = await press(bex, held, 'Flag it')
    expect(flagged.screen[0]).toBe("hold: Flagged for the lead. Don't spray.")
    expect(leadsToMix(flagged)).toBe(false)
    expect((await bex(`> ${flagged.choices.indexOf('Name it (lead)') + 1}`)).outcome).toBe('refusal')

    const walk = flagged.facts.walk
    const opened = await odalys(`/key resume:${walk}`)
    const form = await press(odalys, opened, 'Name it (lead)')
    expect(form.fields).toEqual(['name'])
    const named = await odalys('= name:"carpetgrass, the broad kind"')
    expect(named.title).toMatch(/^Odalys .* calls it: carpetgrass, the broad kind$/)
    expect(leadsToMix(named)).toBe(false)
    const kept = await room.store(async (store) => {
      const found = await store.walks.findByNumber(Number(walk))
      return store.plantFlags.ofWalk(found?.id ?? 0)
    })
    expect(kept).toMatchObject({ status: 'named', name: 'carpetgrass, the broad kind', taxon: null })
    expect((await bex(`/key resume:${walk}`)).lines[0]).toMatch(/^Odalys .* calls it: carpetgrass/)
  })

  test('notices reach leads at once, and who flagged hears the name', async () => {
    const room = await openRoom()
    const [bex, odalys] = [room.as('bex'), room.as('odalys')]
    const held = await press(bex, await bex(`${BANK} observed:"${SEEN}"`), 'Stop, flag it')
    await press(bex, held, 'Flag it')
    const notice = await odalys('+ 1 minute')
    expect(notice.title).toMatch(/^Bex .* flagged a plant$/)
    await press(odalys, notice, 'Name it (lead)')
    await odalys('= name:"Common carpetgrass"')
    const heard = await bex('+ 1 minute')
    expect(heard.title).toMatch(/calls it: Common carpetgrass$/)
  })

  test('photos are kept with the walk and reach the lead', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-photo-'))
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
    const photo = path.join(folder, 'plant.png')
    writeFileSync(photo, readFileSync(path.join(import.meta.dirname, '../../docs/figures/tip.png')))
    const first = await bex(`${BANK} observed:"${SEEN}" photo:"${photo}"`)
    const held = await press(bex, first, 'Stop, flag it')
    await press(bex, held, 'Ask the lead, photo')
    await bex(`= note:"by the gate" photo:"${photo}"`)
    const files = await room.store(async (store) => {
      const walk = await store.walks.findByNumber(Number(first.facts.walk))
      return store.files.list('walk', walk?.id ?? 0)
    })
    expect(files.map(({ type }) => type)).toEqual(['image/png', 'image/png'])
    const opened = await room.as('odalys')(`/key resume:${first.facts.walk}`)
    expect(opened.shown.presented.files.filter(({ name }) => name.startsWith('photo'))).toHaveLength(2)
  })
})

describe('a hold', () => {
  test('may be left, with nothing planned', async () => {
    const bex = (await openRoom()).as('bex')
    const held = await press(bex, await bex(`${BANK} observed:"${SEEN}"`), 'Stop, flag it')
    expect((await press(bex, held, 'Leave it')).title).toBe("Left alone. Don't spray.")
    expect((await bex('/key resume:list')).title).toBe('No walk is open')
  })

  test('says how a sample is taken, and goes back', async () => {
    const bex = (await openRoom()).as('bex')
    const held = await press(bex, await bex(`${BANK} observed:"${SEEN}"`), 'Stop, flag it')
    const sample = await press(bex, held, 'Take a sample')
    expect(sample.lines.join('\n')).toContain('county extension office or a plant clinic')
    expect((await press(bex, sample, 'Back')).title).toBe(held.title)
  })

  test('where nothing fits, the answers most likely wrong are offered again', async () => {
    const bex = (await openRoom()).as('bex')
    const strange =
      'group=grass; vernation=folded; seedhead=umbel-balls; milky_sap=yes; smell=mint; stem_section=square; leaf_type=hollow-tube'
    const said = await bex(`/key turf:"tall fescue" observed:"${strange}"`)
    const held = said.outcome === 'question' ? await press(bex, said, 'Stop, flag it') : said
    expect(held.title).toBe("None of the plants here fits. Don't spray.")
    const again = held.choices.filter((label) => label.startsWith('Look again: '))
    expect(again).toHaveLength(2)
    const question = await press(bex, held, again[0] ?? '')
    expect(question.outcome).toBe('question')
    expect(leadsToMix(held)).toBe(false)
  })
})

test('safety lines of identification stand under every answer', async () => {
  const bex = (await openRoom()).as('bex')
  const said = await bex(`${BANK} observed:"${SEEN}"`)
  expect(said.safety.length).toBeGreaterThan(0)
  expect(said.shown.answered.reply.safety.about).toEqual(['identification'])
})
