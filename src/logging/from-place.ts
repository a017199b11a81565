import { turfsOf } from '#src/mixing/situation.ts'
import { plantName } from '#src/plants.ts'
import type { RecordDraft } from '#src/record/record.ts'
import type { Address } from '#src/record/values.ts'
import type { Area, Site } from '#src/store/sites.ts'

/** A US address on one line: street, town, then state and ZIP. Null for anything else. */
export function readAddress(text: string): Address | null {
  const found = /^(.{1,120}?)[,;]\s*([^,;]{1,80})[,;]\s*([A-Za-z]{2})[,\s]+(\d{5}(?:-\d{4})?)?\s*$/.exec(
    text.trim().replace(/\s*\n\s*/g, ', '),
  )
  const [, street, town, state, zip] = found ?? []
  if (street === undefined || town === undefined || state === undefined) return null
  return {
    street: street.trim(),
    town: town.trim(),
    state: state.toUpperCase(),
    ...(zip === undefined ? {} : { zip }),
  }
}

/** What the crew's book tells of a site: nothing is guessed that it does not say. */
export function fromSite({ id, address, details }: Site): RecordDraft {
  const place = readAddress(address)
  return {
    siteId: id,
    ...(place === null ? {} : { placeAddress: place }),
    ...(place === null && address.trim().length > 0
      ? { placeWords: { words: address.trim().slice(0, 2000), language: 'en' } }
      : {}),
    ...(details.customer.trim() === '' ? {} : { customerName: details.customer.trim().slice(0, 200) }),
  }
}

/** Turf by its English name: a record is English whatever the chat was. */
export function fromArea(area: Area, day: string): RecordDraft {
  const turfs = turfsOf(area, day).map((id) => plantName(id, 'en'))
  const use = area.details.use.trim()
  return {
    areaId: area.id,
    grounds: 'turf',
    ...(turfs.length === 0 ? {} : { turfs: turfs.slice(0, 8) }),
    ...(use === '' ? {} : { use }),
  }
}

/** What the last record of this site said of it, and what does not change from visit to visit. */
export function carriedOver(earlier: RecordDraft): RecordDraft {
  const { customerName, customerAddress, county, forHire, use } = earlier
  return {
    ...(isSaid(customerName) ? { customerName } : {}),
    ...(isSaid(customerAddress) ? { customerAddress } : {}),
    ...(isSaid(county) ? { county } : {}),
    ...(isSaid(use) ? { use } : {}),
    ...(forHire === undefined ? {} : { forHire }),
  }
}

function isSaid(value: unknown): boolean {
  return (
    value !== undefined &&
    !(typeof value === 'object' && value !== null && ('notRecorded' in value || 'removed' in value))
  )
}
