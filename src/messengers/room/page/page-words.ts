import { say } from '#src/conversation/text.ts'
import type { InWords } from './in-words.ts'

/** Sentences that the browser's part says; their ids there are these, without the room. */
export const PAGE_WORDS = [
  'page.all-commands',
  'page.cancel',
  'page.choose',
  'page.clock',
  'page.clock-days',
  'page.clock-go',
  'page.clock-morning',
  'page.clock-plus-eight',
  'page.close',
  'page.download',
  'page.file-too-big',
  'page.files-full',
  'page.filter',
  'page.for-example',
  'page.line',
  'page.lost',
  'page.more-fields',
  'page.needed',
  'page.no',
  'page.no-command',
  'page.private',
  'page.problem',
  'page.run',
  'page.safety',
  'page.send',
  'page.sending',
  'page.shared',
  'page.sheet-empty',
  'page.suggestions',
  'page.tour-back',
  'page.tour-end',
  'page.tour-next',
  'page.tour-skip',
  'page.tour-title',
  'page.used',
  'page.working',
  'page.yes',
] as const

export type PageWord = (typeof PAGE_WORDS)[number] extends `page.${infer Name}` ? Name : never

export function pageWords(inWords: InWords): Record<string, string> {
  return Object.fromEntries(PAGE_WORDS.map((id) => [id.slice('page.'.length), inWords(say(id))]))
}
