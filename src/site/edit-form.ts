import { field } from '#src/conversation/fields.ts'
import type { Reader } from '#src/conversation/reader.ts'
import type { Form } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Elevation } from '#src/store/elevation.ts'
import type { Site } from '#src/store/sites.ts'
import { readElevation } from './elevation.ts'
import { addressProblem, LONGEST } from './site-form.ts'

/** What may be changed of a site, as typed; what is not given stays. */
export interface SiteEdit {
  readonly name?: string | undefined
  readonly address?: string | undefined
  readonly customer?: string | undefined
  readonly mind?: string | undefined
  readonly elevation?: string | undefined
}

/** What stands, to be changed; after a mistake, what was typed. */
export function siteEditForm(site: Site, typed: SiteEdit = {}): Form {
  const { name, address, customer, mind, elevation } = { ...standing(site), ...given(typed) }
  return {
    title: say('site.edit.title'),
    open: say('common.fill-in'),
    fields: [
      field('site.form', 'name', { required: true, value: name, maxLength: LONGEST.name }),
      field('site.form', 'address', {
        required: true,
        value: address,
        hint: true,
        maxLength: LONGEST.address,
      }),
      field('site.form', 'customer', { value: customer, maxLength: LONGEST.name }),
      field('site.form', 'mind', { kind: 'long-text', hint: true, value: mind, maxLength: LONGEST.note }),
      field('site.form', 'elevation', { value: elevation, hint: true, maxLength: 40 }),
    ],
    to: { step: 'edit' },
  }
}

const standing = ({ name, address, details }: Site) => ({
  name,
  address,
  customer: details.customer,
  mind: details.notes,
  elevation: details.elevation === null ? '' : `${details.elevation.value} ${details.elevation.unit}`,
})

const given = (edit: SiteEdit) =>
  Object.fromEntries(Object.entries(edit).filter(([, value]) => value !== undefined)) as Record<
    string,
    string
  >

type Read =
  | { readonly ok: true; readonly value: Omit<Site, 'id'> }
  | { readonly ok: false; readonly problems: readonly Text[] }

/** The site as it is to stand. An elevation that was emptied is that of the crew again. */
export function readSiteEdit(
  edit: SiteEdit,
  site: Site,
  by: { readonly taken: ReadonlySet<string>; readonly read: Reader; readonly units: 'us' | 'metric' },
): Read {
  const name = (edit.name ?? site.name).trim()
  const address = (edit.address ?? site.address).trim()
  const elevation = elevationOf(edit.elevation, site, by)
  const problems: Text[] = [
    ...(name === '' ? [say('site.problem.no-name')] : []),
    ...(by.taken.has(name.toLowerCase()) ? [say('site.problem.name-taken', { name })] : []),
    ...addressProblem(address),
    ...by.read.problems,
  ]
  if (problems.length > 0) return { ok: false, problems }
  const details = {
    ...site.details,
    customer: (edit.customer ?? site.details.customer).trim(),
    notes: (edit.mind ?? site.details.notes).trim(),
    elevation,
  }
  return { ok: true, value: { name, address, details } }
}

function elevationOf(
  typed: string | undefined,
  { details }: Site,
  { read, units }: { readonly read: Reader; readonly units: 'us' | 'metric' },
): Elevation | null {
  if (typed === undefined) return details.elevation
  return typed.trim() === '' ? null : readElevation(typed, read, units)
}
