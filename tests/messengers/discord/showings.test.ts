import { expect, test } from 'vitest'
import { openShowings } from '#src/messengers/discord/showings.ts'

test('pictures of a message that shows something else by now stay away; those of others come', () => {
  const showings = openShowings()
  const [question, other] = [showings.begin(1), showings.begin(2)]
  showings.replace(1)
  expect([question.isReplaced, other.isReplaced]).toEqual([true, false])
})

test('the same answer shown again later has pictures of its own', () => {
  const showings = openShowings()
  const first = showings.begin(1)
  showings.replace(1)
  first.end()
  expect(showings.begin(1).isReplaced).toBe(false)
})

test('an answer that is kept nowhere is replaced by nothing', () => {
  const showings = openShowings()
  const unkept = showings.begin(null)
  showings.replace(1)
  expect(unkept.isReplaced).toBe(false)
  unkept.end()
})
