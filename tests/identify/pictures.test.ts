import { describe, expect, test } from 'vitest'
import type { Attachment } from '#src/conversation/reply.ts'
import { comparePicture, questionPicture } from '#src/identify/pictures.ts'
import { keyWords } from '#src/identify/words.ts'
import { pictureSvg } from '#src/pictures/draw-picture.ts'
import { plants, plantWords } from '#src/plants.ts'
import { buildCatalogue } from '#src/words/catalogue.ts'
import { readWordFiles } from '#src/words/load.ts'
import { speakForRecord } from '#src/words/speak.ts'

const words = buildCatalogue([...readWordFiles(), ...plantWords(), ...keyWords()])
const key = plants()

/** Draws it and gives its words for those who cannot see it. */
function altOf({ from }: Attachment): string {
  if (!('picture' in from)) throw new Error('No picture')
  const drawn = pictureSvg(from.picture, from.data, {
    say: (text) => speakForRecord(words, text),
    theme: 'light',
  })
  return drawn.alt
}

describe('a question’s picture', () => {
  test.each(key.characters.filter(({ asked }) => asked !== false).map((one) => [one.id, one] as const))(
    '%s: every state is drawn under the number of its button',
    (_, character) => {
      const shown = character.states.slice(0, 12)
      const alt = altOf(questionPicture(character, shown))
      expect(alt).toMatch(/^1: /)
      expect(alt).not.toContain('[')
    },
  )
})

describe('plants side by side', () => {
  test.each(key.lookAlikes.map((pair) => [pair.n, pair] as const))(
    'look-alikes %i',
    (_, { sides, tells }) => {
      const plain = sides.flatMap((side) => side.filter((id) => !id.startsWith('@'))).slice(0, 4)
      const picture = comparePicture(plain, tells)
      if (picture !== null) expect(altOf(picture)).not.toContain('[')
    },
  )

  test('nothing is drawn of one plant alone', () => {
    expect(comparePicture(['centipede'], ['seedhead'])).toBeNull()
    expect(comparePicture([], ['seedhead'])).toBeNull()
  })

  test('the pair of the common mistake is told apart by its heads', () => {
    const picture = comparePicture(['carpet-common', 'centipede'], ['seedhead', 'tip'])
    expect(picture && altOf(picture)).toContain('one thin spike')
  })
})
