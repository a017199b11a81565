import type { Attachment } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Cell, Character, State } from '#src/key/index.ts'
import { plants, taxonById } from '#src/plants.ts'
import { sayPart, sayPlant, sayQuestion, sayShort } from './words.ts'

/** The states of a question, drawn with the numbers that stand on the buttons. */
export function questionPicture(character: Character, states: readonly State[]): Attachment {
  return {
    name: `${character.id}.png`,
    alt: say('identify.picture-question', {
      question: sayQuestion(character.id),
      drawings: { all: states.map((state, at) => sayDrawing(character.id, state.id, at + 1)), join: 'lines' },
    }),
    from: {
      picture: 'key-question',
      data: {
        character: character.id,
        states: states.map((state, at) => ({
          id: state.id,
          text: { say: sayShort(character.id, state.id).say },
          mark: String(at + 1),
        })),
      },
    },
  }
}

/** What the drawing of a state shows, for whoever cannot see it. */
function sayDrawing(character: string, state: string, n: number): Text {
  return say('identify.state', { n, state: say(`figure.${character}.${state}`) })
}

const SIDES = 4
const MARKS = 3

/** Plants side by side, by the characters that tell them apart: those in which they differ, if any. Null when nothing of them can be drawn so. */
export function comparePicture(ids: readonly string[], characters: readonly string[]): Attachment | null {
  const drawn = ids
    .slice(0, SIDES)
    .map((id) => ({ id, figures: characters.flatMap((one) => figureOf(id, one)) }))
  const shown = (one: string) =>
    drawn.flatMap(({ figures }) =>
      figures.flatMap(({ character, state }) => (character === one ? state : [])),
    )
  const shared = characters.filter((one) => shown(one).length === drawn.length)
  const telling = shared.filter((one) => new Set(shown(one)).size > 1)
  const some = telling.length > 0 ? telling : shared.length > 0 ? shared : characters
  const sides = drawn
    .map(({ id, figures }) => ({
      id,
      name: { say: sayPlant(id).say },
      scientific: taxonById(id)?.scientificName ?? '',
      figures: figures.filter(({ character }) => some.includes(character)).slice(0, MARKS),
    }))
    .filter(({ figures }) => figures.length > 0)
  if (sides.length < 2) return null
  return {
    name: 'compare.png',
    alt: say('identify.picture-compare', { plants: { all: sides.map(describeSide), join: 'lines' } }),
    from: {
      picture: 'key-compare',
      data: { sides: sides.map(({ id: _id, ...side }) => side) },
    },
  }
}

type Figure = {
  character: string
  state: string
  text: { say: string; with: { part: { say: string }; seen: { say: string } } }
}

/** "Centipedegrass: seed head: one thin spike; …". */
function describeSide({ id, figures }: { readonly id: string; readonly figures: readonly Figure[] }): Text {
  return say('identify.side', { plant: sayPlant(id), marks: { all: figures.map(({ text }) => text) } })
}

/** What a plant shows in a character, by the first state that its table lists. */
function figureOf(id: string, character: string): Figure[] {
  const state = shownState(taxonById(id)?.cells[character], character)
  if (state === undefined) return []
  const words = { part: { say: sayPart(character).say }, seen: { say: sayShort(character, state).say } }
  return [{ character, state, text: { say: 'identify.seen', with: words } }]
}

function shownState(cell: Cell | undefined, id: string): string | undefined {
  if (cell?.kind === 'states') return cell.states[0]
  if (cell?.kind !== 'range') return undefined
  const middle = (cell.from + cell.to) / 2
  const { states } = plants().characters.find((one) => one.id === id) ?? { states: [] }
  return states.find(({ from = 0, to = 0 }) => from <= middle && middle <= to)?.id
}
