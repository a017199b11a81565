import { mkdir } from 'node:fs/promises'
import path from 'node:path'
import type { Bot } from '#src/bot.ts'
import type { Shown } from './session.ts'

/** A reply as one JSON object a line: the room's stable shape, for scripts. */
export interface RoomObject {
  readonly outcome: string
  readonly title: string
  readonly text: string
  readonly facts: Readonly<Record<string, { value: unknown; unit: string | null; text: string }>>
  readonly working: readonly string[]
  readonly safety: readonly { id: string; text: string }[]
  readonly number: string | null
  readonly choices: readonly { n: number; label: string }[]
  readonly form: unknown
  readonly files: readonly { name: string; type: string; bytes: number; path: string }[]
}

export async function roomObject(
  bot: Bot,
  shown: Shown,
  locale: string,
  folder: string,
): Promise<RoomObject> {
  const { presented: one, answered } = shown
  return {
    outcome: one.outcome,
    title: one.title,
    text: [...one.lines, one.standing].join('\n'),
    facts: Object.fromEntries(one.facts.map(({ name, value, unit, text }) => [name, { value, unit, text }])),
    working: one.working,
    safety: one.safety,
    number: one.number,
    choices: one.choices.map(({ label }, at) => ({ n: at + 1, label })),
    form:
      one.form === null
        ? null
        : {
            title: one.form.title,
            fields: one.form.fields.map(({ name, kind, label, hint, required, value, options }) => ({
              name,
              kind,
              label,
              hint,
              required,
              value,
              options,
            })),
          },
    files: await filesOf(bot, answered, locale, folder),
  }
}

/** The answer's pictures and papers, written to the folder. One that cannot be drawn does not cost the answer. */
async function filesOf(
  bot: Bot,
  { reply, number, zone }: Shown['answered'],
  locale: string,
  folder: string,
): Promise<RoomObject['files']> {
  const files = await Promise.all(
    reply.files.map(async (file) => {
      const saved: RoomObject['files'][number][] = []
      try {
        // The room has no largest file: what is written here leaves no machine.
        for await (const drawn of bot.draw(file, { locale, zone, mostBytes: Number.POSITIVE_INFINITY })) {
          const place = path.join(folder, `${number ?? 0}-${drawn.name}`)
          await mkdir(folder, { recursive: true })
          await drawn.saveAs(place)
          saved.push({ name: drawn.name, type: drawn.type, bytes: drawn.size, path: place })
        }
      } catch (error) {
        bot.reportError(error, { number, file: file.name })
      }
      return saved
    }),
  )
  return files.flat()
}
