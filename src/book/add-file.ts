import type { StoredFile } from '#src/conversation/ask.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { readBook } from '#src/label/book.ts'
import { sayBookProblem } from '#src/label/words.ts'
import { knownTaxa } from './finish-entry.ts'
import { keepEntry } from './keep-entry.ts'

const SHOWN_PROBLEMS = 15

/** A file of many entries: all of them, or none and every problem by row and field. */
export async function addFromFile(file: StoredFile, tools: Tools): Promise<Answer> {
  const text = tools.texts.get(file.blob)
  if (text === undefined)
    return { reply: reply('refusal', say('book.file.not-text', { name: file.name }), { audience: 'person' }) }
  const book = readBook(text, knownTaxa())
  if (!book.ok) {
    const problems = book.error.slice(0, SHOWN_PROBLEMS).map(sayBookProblem)
    const more = book.error.length - problems.length
    return {
      reply: reply('refusal', say('book.file.nothing', { count: book.error.length }), {
        lines: [...problems, ...(more > 0 ? [say('book.file.more', { more })] : [])],
        audience: 'person',
      }),
    }
  }
  const kept = []
  for (const entry of book.value) kept.push({ entry, ...(await keepEntry(entry, tools)) })
  const waiting = kept.filter(({ live }) => !live)
  return {
    reply: reply(
      waiting.length === 0 ? 'answer' : 'heads-up',
      say('book.file.kept', { count: kept.length }),
      {
        lines: [
          ...kept.map(({ entry, live }) =>
            say(live ? 'book.file.live' : 'book.file.waiting', { name: entry.name }),
          ),
          ...kept.flatMap(({ slips }) => slips),
        ],
        audience: 'person',
        safety: { about: ['measuring'] },
      },
    ),
  }
}
