import { z } from 'zod'
import { familyNamed } from '../catalogue/families.ts'

/** Years that a rotation may look ahead. */
export const MOST_ROTATION_YEARS = 8

const weight = z.number().min(0).max(1e6).optional()

const file = z.strictObject({
  season: z.int().min(1900).max(2300),
  years: z.int().min(1).max(MOST_ROTATION_YEARS).default(4),
  return_years: z.record(z.string().trim().min(1), z.int().min(1).max(20)).default({}),
  leave: z.array(z.string().min(1)).default([]),
  weights: z.strictObject({ juglone: weight, canopy: weight, support: weight }).default({}),
})

/** The season to carry on, over how many years, which beds to leave out; families by the one name that rotation compares. */
export type RotationAsked = z.output<typeof file>

/** What is wrong with what was asked: where in it, and why. */
export interface RotationFault {
  readonly field: string
  readonly reason: string
}

export function readRotationFile(
  value: unknown,
): { readonly asked: RotationAsked } | { readonly faults: readonly RotationFault[] } {
  const read = file.safeParse(value)
  if (!read.success)
    return { faults: read.error.issues.map(({ path, message }) => ({ field: path.join('.'), reason: message })) }
  const returns = Object.entries(read.data.return_years).map(([family, years]) => [familyNamed(family), years])
  return { asked: { ...read.data, return_years: Object.fromEntries(returns) } }
}
