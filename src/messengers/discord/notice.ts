import { type APIMessageTopLevelComponent, ComponentType, MessageFlags } from 'discord.js'
import type { Answered } from '#src/desk/desk.ts'
import { present } from '#src/messengers/present.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { cutText, shownCost } from './cut.ts'
import { escapeText, flattenTyped, oneLine } from './escape.ts'
import { fitLines, pageLines } from './fit.ts'
import { sayPlainly } from './language.ts'
import { type MessageBody, NO_MENTIONS } from './render.ts'

/** A short private remark of the messenger itself, with something to press if need be. */
export function renderNotice(text: string, rows: readonly APIMessageTopLevelComponent[] = []): MessageBody {
  return {
    flags: MessageFlags.IsComponentsV2 | MessageFlags.Ephemeral,
    components: [
      { type: ComponentType.TextDisplay, content: escapeText(cutText(text, NOTICE, shownCost)) || '…' },
      ...rows,
    ],
    allowed_mentions: NO_MENTIONS,
  }
}

const NOTICE = 1500
const PAGE = 2200
const TITLE = 400
const SAFETY = 1200

/** Everything that an answer says, working included, in pages for one reader's eyes. Never more than `mostPages`. */
export function renderPages(
  words: Catalogue,
  answered: Answered,
  { locale, mostPages }: { readonly locale: string; readonly mostPages: number },
): MessageBody[] {
  const one = present(words, answered, { locale, escape: flattenTyped })
  const lines = [...one.lines, ...one.working.map((step) => `· ${step}`)]
    .map((line) => line.trim())
    .filter((line) => line !== '')
  const all = pageLines(lines, PAGE)
  const pages = all.slice(0, mostPages)
  const rest =
    all.length === pages.length
      ? ''
      : sayPlainly(words, locale, 'discord.rest-kept', { number: one.number ?? '…' })
  return pages.map((page, at) => {
    const isLast = at === pages.length - 1
    const title = escapeText(cutText(oneLine(one.title), TITLE, shownCost)) || '…'
    const safety = fitLines(
      one.safety.map((line) => oneLine(line.text)).filter((line) => line !== ''),
      SAFETY,
    )
    const small = [rest, one.standing, one.numberLine ?? ''].map((line) =>
      cutText(oneLine(line), TITLE, shownCost),
    )
    const content = [
      ...(at === 0 ? [`**${escapeText(`${one.mark} ${one.word}`)}**\n### ${title}`] : []),
      ...page.map(escapeText),
      ...(isLast ? safety.lines.map((line) => `> ${escapeText(line)}`) : []),
      ...(isLast ? small.filter((line) => line !== '').map((line) => `-# ${escapeText(line)}`) : []),
    ].join('\n')
    return {
      flags: MessageFlags.IsComponentsV2 | MessageFlags.Ephemeral,
      components: [
        {
          type: ComponentType.Container,
          components: [{ type: ComponentType.TextDisplay, content: content || '…' }],
        },
      ],
      allowed_mentions: NO_MENTIONS,
    }
  })
}
