import { expect, test } from 'vitest'
import { saySetup } from '#src/sprayer/say-setup.ts'
import { loadWords } from '#src/words/load.ts'
import { speak } from '#src/words/speak.ts'

const words = loadWords()
const inWords = (tip: string, pressure: string) =>
  saySetup({ tip, pressure }).map((text) => speak(words, text, { locale: 'en', escape: (typed) => typed }))

test('tip and pressure of a sprayer are said as they were written down, and which of them was not', () => {
  expect(inWords('cone', '30 psi')).toEqual(['Tip: cone. Pressure: 30 psi.'])
  expect(inWords('cone', '')).toEqual(['Tip: cone. Pressure: not written down.'])
  expect(inWords('', '')).toEqual([])
})
