import type { StoredFile } from '#src/conversation/ask.ts'
import { field, filesOf, refill, textOf } from '#src/conversation/fields.ts'
import type { Form } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { FieldValue } from '#src/desk/command.ts'

type Fields = Readonly<Record<string, FieldValue>>

export interface SiteDraft {
  readonly name: string
  readonly address: string
  readonly customer: string
  readonly mind: string
  readonly photo: StoredFile | null
}

/** The most letters of each field. */
export const LONGEST = { name: 60, address: 200, note: 500 } as const

/** First step: where it is, and what to mind there. */
export function siteForm(values: Partial<SiteDraft>, typed: Fields = {}): Form {
  const fields = [
    field('site.form', 'name', { required: true, value: values.name ?? '', maxLength: LONGEST.name }),
    field('site.form', 'address', {
      required: true,
      value: values.address ?? '',
      hint: true,
      maxLength: LONGEST.address,
    }),
    field('site.form', 'customer', { value: values.customer ?? '', maxLength: LONGEST.name }),
    field('site.form', 'mind', {
      kind: 'long-text',
      hint: true,
      value: values.mind ?? '',
      maxLength: LONGEST.note,
    }),
    field('site.form', 'photo', { kind: 'file' }),
  ]
  return {
    title: say('site.form.title'),
    open: say('common.fill-in'),
    fields: refill(fields, typed),
    to: { step: 'site' },
  }
}

export type ReadSite =
  | { readonly ok: true; readonly draft: SiteDraft }
  | { readonly ok: false; readonly problems: readonly Text[] }

/** Five digits at the end of a US address, as inspectors look for it. */
const ZIP = /\b\d{5}(-\d{4})?\s*$/

export const addressProblem = (address: string): Text[] =>
  ZIP.test(address) ? [] : [say('site.problem.address', { address })]

export function readSiteForm(fields: Fields, namesTaken: ReadonlySet<string>): ReadSite {
  const name = textOf(fields, 'name')
  const address = textOf(fields, 'address')
  const problems: Text[] = []
  if (name === '') problems.push(say('site.problem.no-name'))
  if (namesTaken.has(name.toLowerCase())) problems.push(say('site.problem.name-taken', { name }))
  problems.push(...addressProblem(address))
  if (problems.length > 0) return { ok: false, problems }
  return {
    ok: true,
    draft: {
      name,
      address,
      customer: textOf(fields, 'customer'),
      mind: textOf(fields, 'mind'),
      photo: filesOf(fields, 'photo')[0] ?? null,
    },
  }
}
