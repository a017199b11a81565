import { describe, expect, test } from 'vitest'
import { reader } from '#src/conversation/reader.ts'
import type { Named } from '#src/mixing/resolve.ts'
import { readVolumes } from '#src/mixing/volumes.ts'
import { strangePerson } from '#src/store/people.ts'
import { AreaDetails } from '#src/store/sites.ts'
import { SprayerDetails } from '#src/store/sprayers.ts'

const nobody: Named = {
  product: null,
  sprayer: null,
  site: null,
  area: null,
  person: strangePerson({ key: 'ada', name: 'Ada Test' }),
}
const withCan: Named = {
  ...nobody,
  sprayer: {
    id: 1,
    name: 'Can',
    details: SprayerDetails.parse({
      tank: { value: '3', unit: 'gal' },
      marks: { value: '0.25', unit: 'gal' },
    }),
  },
}
const onLawn: Named = {
  ...withCan,
  area: { id: 1, siteId: 1, name: 'front', squareFeet: '6000', details: AreaDetails.parse({}) },
}

describe('how much mix', () => {
  test.each([
    ['1', '3'],
    ['1/2', '1.5'],
    ['half', '1.5'],
    ['medio', '1.5'],
    ['full', '3'],
    ['lleno', '3'],
    ['3/4', '2.25'],
    ['25%', '0.75'],
    ['0.1', '0.3'],
  ])('%s of a tank of 3 gal is %s gal', (tank, value) => {
    expect(readVolumes({ tank }, withCan, reader('en'))).toMatchObject({
      fill: { value, unit: 'gal' },
      capacity: { value: '3', unit: 'gal' },
      marks: { value: '0.25', unit: 'gal' },
    })
  })

  test('a volume is a volume, with a sprayer or without', () => {
    expect(readVolumes({ tank: '2 gal' }, nobody, reader('en'))?.fill).toEqual({ value: '2', unit: 'gal' })
    expect(readVolumes({ tank: '2 gal' }, withCan, reader('en'))?.fill).toEqual({ value: '2', unit: 'gal' })
  })

  test('an area is the ground where nothing else says how much', () => {
    expect(readVolumes({}, onLawn, reader('en'))?.ground).toEqual({ value: '6000', unit: 'ft2' })
    expect(readVolumes({ tank: '1' }, onLawn, reader('en'))?.ground).toBeUndefined()
    expect(readVolumes({}, withCan, reader('en'))).toBeNull()
  })

  test.each([
    [{ tank: '1/2' }, nobody, 'mixing.share-needs-sprayer'],
    [{ ground: '6000 ft2' }, nobody, 'mixing.ground-needs-tank'],
  ])('%o without a sprayer is a problem', (given, named, id) => {
    const read = reader('en')
    readVolumes(given, named, read)
    expect(read.problems.map((one) => one.with?.problem)).toMatchObject([{ say: id }])
  })

  test('150 % of a tank and more ground than a county are problems', () => {
    const read = reader('en')
    readVolumes({ tank: '150%', ground: '5000 acres' }, withCan, read)
    expect(read.problems).toHaveLength(2)
  })
})
