import { expect, onTestFinished, test } from 'vitest'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import { showAnswered } from '#src/messengers/room/page/entries.ts'
import { viewerOf } from '#src/messengers/room/page/people.ts'
import { loadDemo } from '../../data/demo/load.ts'
import { openPage } from './open-page.ts'

test.each([
  { title: '3.2 g of Tarnbrask 75 WDG', figure: '3.2 g', rest: 'of Tarnbrask 75 WDG' },
  { title: '30 % control: wait until Wednesday.', figure: '30 % control', rest: 'wait until Wednesday.' },
  { title: '2 plots', figure: '2 plots', rest: '' },
  { title: 'Tarnbrask 75 WDG is kept', figure: null, rest: 'Tarnbrask 75 WDG is kept' },
  { title: 'Use 3 g', figure: null, rest: 'Use 3 g' },
])('$title: its figure stands alone, and the rest begins with a word', async ({ title, figure, rest }) => {
  const room = await openPage()
  onTestFinished(room.close)
  const viewer = (await viewerOf(room.bot, loadDemo(), 'bex')) ?? expect.fail()
  const facts = ['3.2 g', '30 % control', '2 plots', '3 g', 'Tarnbrask 75 WDG'].map((text, at) => {
    return { name: `amount${at}`, value: at, text: asTyped(text) }
  })
  const entry = await showAnswered(room.bot, viewer, {
    reply: reply('answer', asTyped(title), { facts }),
    number: 1,
    turnId: 1,
    language: { person: 'en', crew: 'en' },
    zone: 'America/New_York',
    replayed: false,
    demo: true,
  })
  expect(entry).toMatchObject({ figure, title: rest })
})
