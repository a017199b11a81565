import { HAND_CAN, SITE } from '#tests/e2e-discord/seed.ts'

/** A mix held against the history of its ground, with everything said; its label allows it in every season. */
export const MIX = {
  product: 'Tarnbrask 75 WDG',
  sprayer: HAND_CAN,
  tank: '1/2',
  output: '1 gal/1000 ft2',
  site: SITE,
  area: 'front',
  line: 'sedges',
  rate: '0.113 oz wt/1000 ft2',
}
