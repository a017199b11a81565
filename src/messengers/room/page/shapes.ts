import type { PresentedForm } from '#src/messengers/present.ts'

/** One answer as the page shows it to one person, in that person's language. Plain text everywhere. */
export interface PageEntry {
  /** Null only when the store could not be written. */
  readonly turn: number | null
  readonly number: string | null
  readonly numberLine: string | null
  /** When it was asked, as a sentence, in the crew's time zone. */
  readonly at: string
  readonly by: string
  /** What was asked, as it would be typed; empty for what came by itself. */
  readonly asked: string
  readonly isPrivate: boolean
  readonly outcome: string
  readonly mark: string
  readonly word: string
  /** The amount that the title begins with, where it begins with one; the rest of it is `title`. */
  readonly figure: string | null
  readonly title: string
  readonly lines: readonly string[]
  readonly working: readonly string[]
  readonly safety: readonly string[]
  readonly standing: string
  readonly demo: string | null
  readonly isClosed: boolean
  readonly choices: readonly PageChoice[]
  readonly form: PresentedForm | null
  readonly files: readonly PageFile[]
  /** On an answer for others: whose its buttons are. */
  readonly note: string | null
  /** On a shared answer: the languages that it can be read in besides this one, by id and by name. */
  readonly languages: readonly { readonly id: string; readonly name: string }[]
}

export interface PageChoice {
  readonly token: string
  readonly label: string
  readonly hint: string | null
  readonly look: 'main' | 'plain' | 'stop'
  /** Stays good after it was pressed. */
  readonly isRepeat: boolean
}

export interface PageFile {
  readonly name: string
  readonly alt: string
  readonly address: string
  /** Width and height in pixels of a picture; null for what is only downloaded. */
  readonly size: readonly [number, number] | null
}

/** What the stream of the page brings: answers that are new, which buttons are used up, what time it is. */
export interface PageNews {
  /** Good for this process only: every request carries it back. */
  readonly token: string
  /** True when these are all that there are, and whatever the page showed before is to be forgotten. */
  readonly isStart: boolean
  readonly entries: readonly PageEntry[]
  readonly closed: readonly number[]
  /** The practice clock: time and day. */
  readonly now: readonly [string, string]
}

/** A field of a command's form, made from its schema. */
export interface PageOption {
  readonly name: string
  readonly label: string
  readonly required: boolean
  readonly kind: 'text' | 'long-text' | 'choice' | 'number' | 'boolean' | 'file'
  readonly values: readonly { readonly value: string; readonly label: string }[]
  readonly suggests: boolean
  readonly most: number | null
}

export interface PageCommand {
  readonly name: string
  readonly about: string
  readonly options: readonly PageOption[]
}

/** What stands in a page from its first moment on. */
export interface PageStart {
  readonly person: string
  readonly token: string
  readonly words: Readonly<Record<string, string>>
  readonly commands: readonly PageCommand[]
  readonly tour: readonly PageStep[]
}

/** A step of the tour: what is learned, and what its button does. */
export interface PageStep {
  readonly title: string
  readonly text: string
  readonly button: string
  readonly does:
    | { readonly kind: 'form'; readonly command: string; readonly options: Readonly<Record<string, string>> }
    | { readonly kind: 'days'; readonly days: number }
}

/** What the page asks the server to do. */
export type PageRequest =
  | {
      readonly kind: 'run'
      readonly command: string
      readonly options: Readonly<Record<string, string | { readonly upload: string }>>
    }
  | { readonly kind: 'press'; readonly token: string }
  | {
      readonly kind: 'submit'
      readonly token: string
      readonly fields: Readonly<Record<string, string | readonly string[] | readonly { upload: string }[]>>
    }
  | { readonly kind: 'line'; readonly text: string; readonly last: number | null }
  | { readonly kind: 'wait'; readonly days: number }
  | { readonly kind: 'morning' }

export interface PageAnswer {
  readonly entries: readonly PageEntry[]
  /** Errors of a command's form, each beside its field. */
  readonly problems: readonly { readonly field: string; readonly text: string }[]
}
