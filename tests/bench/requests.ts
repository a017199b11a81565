import { HAND_CAN, SITE } from '#tests/e2e-discord/seed.ts'

/** A mix held against the history of its ground, with everything said. */
export const MIX = {
  product: 'Dunvarrow 2 SC',
  sprayer: HAND_CAN,
  tank: '1/2',
  output: '1 gal/1000 ft2',
  site: SITE,
  area: 'front',
  line: 'young-crab',
  rate: '0.25 fl oz/1000 ft2',
}
