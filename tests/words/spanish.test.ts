import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { IntlMessageFormat } from 'intl-messageformat'
import { describe, expect, test } from 'vitest'
import { parseObserved } from '#src/key/observed.ts'
import { COMMAND, COMPONENT, MODAL } from '#src/messengers/discord/limits.ts'
import { projectRoot, readData } from '#src/project.ts'
import { loadEmergencyCard, loadSafetyLines, loadWords } from '#src/words/load.ts'
import { readKey } from '../../data/taxa/load.ts'

const words = loadWords()
const english = (id: string) => words.source('en', id) ?? ''
const spanish = (id: string) => words.source('es', id) ?? ''
/** Ids that stand in both languages; what is missing is the catalogue test's to tell. */
const ids = words.ids('en').filter((id) => words.source('es', id) !== null)

const list = (lines: readonly string[]) => lines.map((line) => `\n  ${line}`).join('')
const failing = (isWrong: (id: string) => boolean) =>
  list(ids.filter(isWrong).map((id) => `${id}   ${spanish(id)}`))
const count = (text: string, part: string) => text.split(part).length - 1

type Piece = ReturnType<IntlMessageFormat['getAst']>[number]
type Choice = Extract<Piece, { options: unknown }>

/** Every plural and selection of a message, those inside one another too. */
function choicesOf(pieces: readonly Piece[]): Choice[] {
  return pieces.flatMap((piece) =>
    'options' in piece
      ? [piece, ...Object.values(piece.options).flatMap(({ value }) => choicesOf(value))]
      : [],
  )
}

function readChoices(source: string, locale: string): Choice[] {
  return choicesOf(new IntlMessageFormat(source, locale, undefined, { ignoreTag: true }).getAst())
}

const isPlural = (choice: Choice) => 'pluralType' in choice
const namesOf = (choice: Choice) => Object.keys(choice.options)

/** The text as a reader sees it, with every branch of its choices and without parameters. */
const plainOf = (source: string) => source.replace(/\{\w+\}/g, '').replace(/\{\w+, (select|plural),/g, '{')

describe('the shape of a sentence', () => {
  test('a selection has the same branches as in English', () => {
    const selections = (source: string, locale: string) =>
      readChoices(source, locale)
        .filter((choice) => !isPlural(choice))
        .map((choice) => `${choice.value}: ${namesOf(choice).sort()}`)
        .sort()
    const wrong = ids.filter(
      (id) => String(selections(spanish(id), 'es')) !== String(selections(english(id), 'en')),
    )
    expect(list(wrong)).toBe('')
  })

  test('a plural of English is a plural, with one and other', () => {
    const wrong = ids.flatMap((id) => {
      const own = readChoices(spanish(id), 'es').filter(isPlural)
      const lacking = readChoices(english(id), 'en')
        .filter(isPlural)
        .filter((plural) => !own.some(({ value }) => value === plural.value))
      const crippled = own.filter(
        (plural) => !['one', 'other'].every((name) => namesOf(plural).includes(name)),
      )
      return [...lacking, ...crippled].map(({ value }) => `${id} {${value}}`)
    })
    expect(list(wrong)).toBe('')
  })

  test('a plural names the same exact numbers as in English', () => {
    const exact = (source: string, locale: string) =>
      readChoices(source, locale)
        .filter(isPlural)
        .flatMap((plural) => namesOf(plural).filter((name) => name.startsWith('=')))
        .sort()
    expect(list(ids.filter((id) => `${exact(spanish(id), 'es')}` !== `${exact(english(id), 'en')}`))).toBe('')
  })

  test('questions and exclamations open as they close', () => {
    expect(
      failing(
        (id) =>
          // `? lists everything`: a key to press, no question.
          count(spanish(id), '¿') !== count(spanish(id).replace(' ? ', ' '), '?') ||
          count(spanish(id), '¡') !== count(spanish(id), '!'),
      ),
    ).toBe('')
  })

  test('figures are the figures of English', () => {
    const figures = (text: string) =>
      (
        plainOf(text)
          .replace(/(\d),(?=\d{3})/g, '$1')
          .match(/\d+(\.\d+)*/g) ?? []
      )
        .sort()
        .join(' ')
    const ownExample = new Set(['identify.form.observed-hint', 'command.key.observed'])
    const isWrong = (id: string) => !ownExample.has(id) && figures(spanish(id)) !== figures(english(id))
    expect(failing(isWrong)).toBe('')
  })
})

describe('signal words and outcomes', () => {
  const SIGNALS = {
    'signal.danger': 'PELIGRO',
    'signal.danger-poison': 'PELIGRO, VENENO',
    'signal.warning': 'AVISO',
    'signal.caution': 'PRECAUCIÓN',
  }

  /** National Pesticide Information Center, Palabras de advertencia, npic.orst.edu/factsheets/signalwords.es.html */
  test.each(Object.entries(SIGNALS))('%s is %s, beside the English word', (id, word) => {
    expect(spanish(id).split(' (')[0]).toBe(word)
    expect(english(id)).toContain(`(${word})`)
    expect(spanish(id)).toContain(`(${english(id).split(' (')[0]})`)
  })

  test('signal words of labels stand nowhere else', () => {
    expect(
      failing(
        (id) => !id.startsWith('signal.') && /\b(peligro|avisos?|precauci[oó]n|cuidado)\b/i.test(spanish(id)),
      ),
    ).toBe('')
  })

  test('a hold is said by the word of its outcome', () => {
    expect(spanish('outcome.hold')).toBe('Espere')
    expect(failing((id) => english(id).startsWith('Hold: ') && !spanish(id).startsWith('Espere: '))).toBe('')
    const namesIt = /\b(a|this|the|lifts?) holds?\b|^Hold lifted/
    expect(failing((id) => namesIt.test(english(id)) && !spanish(id).includes('“Espere”'))).toBe('')
  })

  test('a refusal begins with No', () => {
    expect(failing((id) => english(id).startsWith('No: ') && !spanish(id).startsWith('No: '))).toBe('')
  })
})

describe('the way a crew is spoken to', () => {
  test('as usted, never as tú', () => {
    const familiar =
      /(^|[\s¿¡“])(tú|tus?|te|ti|contigo|puedes|tienes|quieres|debes|necesitas|haz|pon)([\s.,;:?!”]|$)/i
    expect(failing((id) => familiar.test(spanish(id)))).toBe('')
  })

  /** Fumigating is another act in law; a rate or dose has one word; an output is no exit. */
  test.each([
    ['fumigar', /fumig/i],
    ['tasa', /\btasas?\b/i],
    ['salida', /\bsalidas?\b/i],
    ['pulverizador', /pulveriz|aspersora/i],
  ])('%s is not said', (_word, pattern) => {
    expect(failing((id) => pattern.test(spanish(id)))).toBe('')
  })

  test('nothing is left in English', () => {
    // The same in both languages, or typed as it stands on the label.
    const same =
      /^(No|Error|EPA Reg\. No\.|Delta T|ft2|fl oz|oz wt|lb|ae|ai|gal|acres?|other|Base|base|medium|coarse|America|Chicago|[A-Z]{1,3})$/
    const left = ids.filter((id) => {
      const plain = plainOf(english(id)).replace(/[a-z]+-[a-z-]+/g, '')
      const letters = plain.match(/[A-Za-z]{4,}/g) ?? []
      return english(id) === spanish(id) && letters.some((word) => !same.test(word))
    })
    expect(list(left)).toBe('')
  })
})

describe('the room that the platform gives', () => {
  const fitting = (chosen: readonly string[], most: number) =>
    list(
      chosen
        .filter((id) => plainOf(spanish(id)).length > most)
        .map((id) => `${id}   ${plainOf(spanish(id)).length} of ${most}`),
    )
  const formIds = ids.filter((id) => /(^|\.)form\./.test(id))

  test('descriptions of commands and options', () => {
    expect(
      fitting(
        ids.filter((id) => /^command(-group)?\./.test(id)),
        COMMAND.description,
      ),
    ).toBe('')
  })

  test('titles of forms', () => {
    const titles = ids.filter((id) => /(^|\.)form\..*title|\.(lift-title|needs\.title)$/.test(id))
    expect(titles.length).toBeGreaterThan(5)
    expect(fitting(titles, MODAL.title)).toBe('')
  })

  test('labels and hints of fields', () => {
    expect(
      fitting(
        formIds.filter((id) => !id.endsWith('-hint')),
        MODAL.label,
      ),
    ).toBe('')
    expect(
      fitting(
        formIds.filter((id) => id.endsWith('-hint')),
        MODAL.description,
      ),
    ).toBe('')
  })

  /** Buttons of the key stand side by side up to this length; a number and a blank come before the words. */
  const KEY_BUTTON = 20

  test('short words of the key', () => {
    const wide = readKey().characters.flatMap(({ id, kind, states }) => {
      // Hallmarks are never all offered at once, so their numbers have one digit.
      const digits = kind === 'hallmark' ? 1 : String(Math.min(states.length, 12)).length
      const short = states.map((state) => spanish(`identify.short.${id}.${state.id}`))
      return short
        .filter((word, at) => word.length + digits + 1 > KEY_BUTTON || short.indexOf(word) !== at)
        .map((word) => `${id}: ${word}`)
    })
    expect(list(wide)).toBe('')
  })

  test('labels of choices', () => {
    const inCode = labelsInCode()
    const labels = ids.filter((id) => inCode.has(id))
    expect(labels.length).toBeGreaterThan(5)
    expect(fitting(labels, COMPONENT.buttonLabel)).toBe('')
  })
})

/** Ids that the sources give to choices: `label: say('…')`. */
function labelsInCode(): ReadonlySet<string> {
  const files = ['src', 'commands'].flatMap((folder) =>
    readdirSync(path.join(projectRoot(), folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => path.join(projectRoot(), folder, name)),
  )
  const found = files.flatMap((file) => [
    ...readFileSync(file, 'utf8').matchAll(/label: say\(\s*'([a-z0-9.-]+)'/g),
  ])
  return new Set(found.flatMap(([, id]) => (id === undefined ? [] : [id])))
}

describe('the glossary page', () => {
  const page = readFileSync(path.join(projectRoot(), 'docs/glossary.md'), 'utf8')
  const rows = page
    .split('\n')
    .filter((line) => line.startsWith('| '))
    .map((line) => line.split('|').map((cell) => cell.trim()))
  const sayingOf = (term: string) => rows.find(([, own]) => own === term)?.[2]

  test.each([
    ['answer', 'outcome.answer'],
    ['heads-up', 'outcome.heads-up'],
    ['question', 'outcome.question'],
    ['hold', 'outcome.hold'],
    ['refusal', 'outcome.refusal'],
  ])('calls the outcome %s what the program calls it', (term, id) => {
    expect(sayingOf(term)).toBe(spanish(id))
  })

  test('says of every safety line how far its Spanish may be trusted', () => {
    const card = loadEmergencyCard()
    const all = [...loadSafetyLines(), ...card.numbers, ...card.steps]
    const published = all.filter((line) => line.spanish === 'published bilingual source')
    expect(page).toContain(
      `${published.length} of ${all.length} lines come from a published bilingual source`,
    )
    for (const { id } of published) expect(page).toContain(`\`${id}\``)
  })
})

describe('the key', () => {
  const files = readdirSync(path.join(projectRoot(), 'data/characters')).filter((name) =>
    name.endsWith('.json'),
  )

  test.each(files)('%s asks and answers in Spanish', (name) => {
    const characters = JSON.parse(readData(`characters/${name}`)) as readonly KeyCharacter[]
    const silent = characters.flatMap(({ id, ask, states }) => [
      ...(ask.es === undefined ? [id] : []),
      ...states.filter((state) => state.words.es === undefined).map((state) => `${id}=${state.id}`),
    ])
    expect(list(silent)).toBe('')
  })

  test.each(files)('%s has other words for other answers of one question', (name) => {
    const characters = JSON.parse(readData(`characters/${name}`)) as readonly KeyCharacter[]
    const twice = characters.flatMap(({ id, states }) => {
      const said = states.map(({ words: own }) => own.es)
      return said.filter((one, at) => said.indexOf(one) !== at).map((one) => `${id}: ${one}`)
    })
    expect(list(twice)).toBe('')
  })
})

describe('what is typed', () => {
  const key = readKey()

  test('the example beside the field is understood, and the description of the option too', () => {
    const examples = [
      spanish('identify.form.observed-hint'),
      spanish('command.key.observed').replace(/^[^:]*: /, ''),
    ]
    for (const example of examples) {
      const { answers, problems } = parseObserved(key, example)
      expect(problems, example).toEqual([])
      expect(answers.length, example).toBeGreaterThanOrEqual(3)
    }
  })

  const saidOf = (one: ReturnType<typeof parseObserved>['answers'][number]) =>
    one.kind === 'states' ? one.states : one.kind === 'range' ? `${one.from}-${one.to}` : one.kind

  test.each([
    ['menos de 2 mm', 'to', 2],
    ['hasta 2 mm', 'to', 2],
    ['no más de 2 mm', 'to', 2],
    ['más de 8 mm', 'from', 8],
    ['al menos 8 mm', 'from', 8],
    ['por lo menos 8 mm', 'from', 8],
    ['8 mm o más', 'from', 8],
    ['más de 1 pulgada', 'from', 25.4],
  ] as const)('an end of a span: %s', (typed, end, mm) => {
    const { answers, problems } = parseObserved(key, `ancho de la hoja: ${typed}`)
    expect(problems).toEqual([])
    expect(answers).toMatchObject([{ kind: 'range', character: 'blade_width_mm', [end]: mm }])
  })

  test.each([
    ['doblada, estolones, sin espiga', 'vernation=folded habit=stolons seedhead=none-seen'],
    ['hoja nueva enrollada', 'vernation=rolled'],
    ['espiga: dedos', 'seedhead=fingers'],
    ['pelos en la funda', 'hairs=sheath'],
    ['flor amarilla', 'flower_color=yellow'],
    ['leche blanca; nudos con barba', 'milky_sap=yes node_hairs=yes'],
    ['doblda en dos', 'vernation=folded'],
    ['hoja de 6 mm de ancho', 'blade_width_mm=6-6'],
    ['ancho de la hoja: más o menos 6 mm', 'blade_width_mm=6-6'],
    ['la hoja mide 1/4 de pulgada', 'blade_width_mm=6.35-6.35'],
    ['hoja de 4 a 8 mm', 'blade_width_mm=4-8'],
    ['espiga: no sé', 'seedhead=cant-tell'],
    ['no tiene espiga', 'seedhead=none-seen'],
    ['sin espiga y sin pelos', 'seedhead=none-seen hairs=none'],
    ['estolones y rizomas', 'habit=stolons,rhizomes'],
    ['florece: abril a agosto', 'flower_months=4-8'],
  ])('%s', (typed, seen) => {
    const { answers, problems } = parseObserved(key, typed)
    expect(problems).toEqual([])
    expect(answers.map((one) => `${one.character}=${saidOf(one)}`).join(' ')).toBe(seen)
  })

  /** A wide blade is no broadleaf plant: what may mean either is asked about. */
  test.each(['hoja ancha', 'redonda', 'nada'])('%s is not guessed at', (typed) => {
    expect(parseObserved(key, typed).answers).toEqual([])
  })
})

describe('plants taken for one another', () => {
  const entries = JSON.parse(readData('taxa/look-alikes.json')) as readonly LookAlikeWords[]

  test('each says in Spanish how they are told apart, with the measures of English', () => {
    const measures = (text: string) => (text.match(/\d+(\.\d+)?/g) ?? []).sort().join(' ')
    const wrong = entries.filter(({ words: { en, es } }) => es === undefined || measures(es) !== measures(en))
    expect(list(wrong.map(({ n, words: own }) => `${n}   ${own.es}`))).toBe('')
  })
})

interface LookAlikeWords {
  readonly n: number
  readonly words: { readonly en: string; readonly es?: string }
}

interface KeyCharacter {
  readonly id: string
  readonly ask: { readonly en: string; readonly es?: string }
  readonly states: readonly { readonly id: string; readonly words: { readonly es?: string } }[]
}
