import { type APIComponentInContainer, ComponentType } from 'discord.js'
import type { Presented } from '#src/messengers/present.ts'
import { cutText, shownCost } from './cut.ts'
import { escapeText, oneLine } from './escape.ts'
import { costOf, fitLines, shareRoom } from './fit.ts'

export interface TextRoom {
  /** Characters that all text displays may cost together. */
  readonly room: number
  readonly facts: readonly string[]
  /** Small remarks of the messenger: files to come, whose the buttons are. */
  readonly notes: readonly string[]
  /** Said where lines had to be left out. */
  readonly more: string
}

export interface Texts {
  readonly main: readonly APIComponentInContainer[]
  readonly safety: readonly APIComponentInContainer[]
  readonly small: readonly APIComponentInContainer[]
  /** Lines were left out or cut: all of them must be reachable. */
  readonly isCut: boolean
}

/** The most that each fixed part may cost. Title and standing line are sentences; the rest are a few words. */
const MOST = { title: 400, word: 60, standing: 300, note: 160, notes: 700, small: 160 } as const
/** Marks of headings, small print and quotes, and line breaks between parts. */
const MARKS = 60

/** Texts of an answer: outcome and title, its lines, the safety lines, and the small print below. */
export function layTexts(presented: Presented, { room, facts, notes, more }: TextRoom): Texts {
  const heading = headingOf(presented)
  const title = cutText(oneLine(presented.title), MOST.title, shownCost)
  const small = smallLines(presented, notes)
  const fixed = [presented.word, title, ...small, more]
  const left = room - costOf(fixed) - MARKS
  const answer = [...presented.lines, ...facts].map((line) => line.trim()).filter((line) => line !== '')
  const safety = presented.safety.map((line) => oneLine(line.text)).filter((line) => line !== '')
  const shares = shareRoom(left, costOf(safety), costOf(answer))
  const shown = { answer: fitLines(answer, shares.answer), safety: fitLines(safety, shares.safety) }
  const isCut = shown.answer.missing + shown.safety.missing > 0
  const lines = [...shown.answer.lines.map(escapeText), ...(isCut ? [`-# ${escapeText(more)}`] : [])]
  return {
    main: [
      text(
        `**${escapeText(cutText(heading, MOST.word, shownCost))}**\n${'#'.repeat(levelOf(title))} ${escapeText(title) || '…'}`,
      ),
      ...textOf(lines),
    ],
    safety:
      shown.safety.lines.length === 0
        ? []
        : [line(), ...textOf(shown.safety.lines.map((one) => `> ${escapeText(one)}`))],
    small: [line(), ...textOf(small.map((one) => `-# ${escapeText(one)}`))],
    isCut,
  }
}

const headingOf = ({ mark, word }: Presented) => `${mark} ${oneLine(word)}`

/** Short titles are read from an arm's length; long ones must not fill the screen. */
function levelOf(title: string): 1 | 2 | 3 {
  if (title.length <= 40) return 1
  return title.length <= 90 ? 2 : 3
}

function smallLines(presented: Presented, notes: readonly string[]): string[] {
  const marks = [presented.numberLine, presented.demo].filter((one) => one !== null).map(oneLine)
  const lines = [
    ...fitLines(
      notes.map((note) => cutText(oneLine(note), MOST.note, shownCost)),
      MOST.notes,
    ).lines,
    cutText(oneLine(presented.standing), MOST.standing, shownCost),
    cutText(marks.join(' · '), MOST.small, shownCost),
  ]
  return lines.filter((one) => one !== '')
}

const text = (content: string): APIComponentInContainer => ({ type: ComponentType.TextDisplay, content })
const textOf = (lines: readonly string[]) => (lines.length === 0 ? [] : [text(lines.join('\n'))])
const line = (): APIComponentInContainer => ({ type: ComponentType.Separator, divider: true, spacing: 1 })
