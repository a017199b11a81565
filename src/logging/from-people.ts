import type { RecordDraft } from '#src/record/record.ts'
import type { Crew } from '#src/store/crews.ts'
import type { Person } from '#src/store/people.ts'
import { readAddress } from './from-place.ts'

/** First and last name. What a messenger calls somebody is often neither. */
const FULL_NAME = /\S+\s+\S+/

/** Who sprayed it, with the license on file. Nobody is said to hold none, or given a name: that is asked. */
export function fromPerson({ id, name, settings }: Person): RecordDraft {
  const { license } = settings
  return {
    ...(FULL_NAME.test(name.trim()) ? { applicator: { name: name.slice(0, 200), id } } : {}),
    ...(license === null ? {} : { license: { number: license.number, expiresOn: license.expiresOn } }),
  }
}

/** The business as the crew has set it up. */
export function fromCrew({ settings: { company } }: Crew): RecordDraft {
  const address = readAddress(company.address)
  return {
    ...(company.name === '' ? {} : { company: company.name }),
    ...(company.license === '' ? {} : { companyLicense: company.license }),
    ...(address === null ? {} : { companyAddress: address }),
  }
}

/** The first of the leads who holds a license: others may work under it. */
export function supervisorAmong(leads: readonly Person[], day: string): Person | undefined {
  return leads.find(({ settings: { license } }) => license !== null && license.expiresOn >= day)
}
