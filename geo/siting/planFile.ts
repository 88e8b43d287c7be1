import { z } from 'zod'
import { familyNamed } from '../catalogue/families.ts'
import { SIDES } from '../supports/sideLine.ts'
import { WEIGHTS, type Weight } from './weights.ts'

const side = z.enum(SIDES)
const rowAt = z.strictObject({ bed: z.string().min(1), side })
const money = z.number().min(0).max(1e9)
const byFamily = <T extends z.ZodType>(value: T) => z.record(z.string().trim().min(1), value)

/** Years that a plan may look ahead. */
export const MOST_YEARS = 15

const file = z.strictObject({
  from: z.int().min(1900).max(2300),
  years: z.int().min(1).max(MOST_YEARS),
  need: byFamily(z.number().min(0).max(1e6)).refine((need) => Object.values(need).some((m) => m > 0), {
    message: 'no family needs any metres',
  }),
  return_years: byFamily(z.int().min(1).max(20)).default({}),
  system: z.string().min(1),
  instead: z.string().min(1),
  budget: money.nullable().default(null),
  labour_per_hour: money.default(0),
  weights: z
    .strictObject(
      Object.fromEntries(Object.keys(WEIGHTS).map((name) => [name, money.optional()])) as Record<
        Weight,
        z.ZodOptional<typeof money>
      >,
    )
    .default({}),
  fix: z.array(rowAt).default([]),
  forbid: z.array(rowAt).default([]),
  prefer: z.array(rowAt).default([]),
  wind_from_deg: z.number().min(0).max(360).nullable().default(null),
})

/** A plan file as it is read: every option told, families by the one name that rotation compares. */
export type SitingAsked = z.output<typeof file>
export type RowAt = z.output<typeof rowAt>

/** What is wrong with a plan file: where in it, and why. */
export interface PlanFault {
  readonly field: string
  readonly reason: string
}

/** Reads a plan file's value; every fault by its field. */
export function readPlanFile(value: unknown): { asked: SitingAsked } | { faults: readonly PlanFault[] } {
  const read = file.safeParse(value)
  if (!read.success)
    return { faults: read.error.issues.map(({ path, message }) => ({ field: path.join('.'), reason: message })) }
  const named = <T>(record: Record<string, T>) =>
    Object.fromEntries(Object.entries(record).map(([family, one]) => [familyNamed(family), one]))
  const asked = { ...read.data, need: named(read.data.need), return_years: named(read.data.return_years) }
  const faults = [
    ...Object.keys(asked.return_years)
      .filter((family) => !(family in asked.need))
      .map((family) => ({ field: `return_years.${family}`, reason: 'this family needs no metres' })),
    ...asked.fix
      .filter((one) => asked.forbid.some((other) => same(one, other)))
      .map(({ bed, side }) => ({ field: 'fix', reason: `${bed} ${side} is fixed and forbidden` })),
    ...asked.fix
      .filter((one, n) => asked.fix.findIndex((other) => other.bed === one.bed) < n)
      .map(({ bed }) => ({ field: 'fix', reason: `bed ${bed} is fixed twice: one permanent support a bed` })),
  ]
  return faults.length > 0 ? { faults } : { asked }
}

const same = (a: RowAt, b: RowAt) => a.bed === b.bed && a.side === b.side
