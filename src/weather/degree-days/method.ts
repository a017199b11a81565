import { z } from 'zod'
import { Decimal } from '#src/quantity/rate.ts'

/**
 * How degree days are counted. A total means nothing without its method, base and first day, so all of them travel
 * with it. The unit is that of base and cap; a total is in degrees of that unit.
 */
export const DegreeDayMethod = z.discriminatedUnion('name', [
  /** Mean of maximum and minimum less the base, never below zero. */
  z.strictObject({ name: z.literal('average'), base: Decimal, unit: z.enum(['F', 'C']) }),
  /** Both ends are cut to base and cap before they are averaged: Ohio State University Extension AGF-101. */
  z.strictObject({ name: z.literal('capped'), base: Decimal, cap: Decimal, unit: z.enum(['F', 'C']) }),
  /** Area above the base of one sine wave through the day's ends: Baskerville and Emin 1969 (from memory). */
  z.strictObject({
    name: z.literal('sine'),
    base: Decimal,
    /** Heat above it does not count (horizontal cut-off). */
    cap: Decimal.exactOptional(),
    unit: z.enum(['F', 'C']),
  }),
])
export type DegreeDayMethod = z.infer<typeof DegreeDayMethod>

/** The corn method, whose name is its figures. */
export const cappedCorn: DegreeDayMethod = { name: 'capped', base: '50', cap: '86', unit: 'F' }

/** Bases in use on turf, in °F (Michigan State University turf page). */
export const turfBasesF = ['22', '32', '50'] as const
