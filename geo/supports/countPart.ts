import type { PartRule, RuleBase } from './partRule.ts'

/** The size of a run: what its parts are counted by. Null is "not known", and so is what hangs on it. */
export interface RunSize {
  readonly lengthM: number
  /** Height of the leafed side. */
  readonly heightM: number | null
  readonly lines: number | null
  readonly plants: number | null
  readonly posts: number | null
  readonly ties: number | null
}

/** A spacing may be stretched by so much of itself before one more is counted: a run is not drawn to the millimetre. */
export const STRETCH = 0.02

/** Stretches of `every` that a length begins, at least one. */
export function stretchesOf(amount: number, every: number): number {
  return Math.max(1, Math.ceil(amount / every - STRETCH))
}

/**
 * How many of a part a run needs. `per 1.5 m` counts each stretch that is begun, `per m` goes in proportion; pieces are
 * rounded up, lengths and areas are not; never below zero. Null where what it counts by is not known.
 */
export function countPart(rule: PartRule, size: RunSize): number | null {
  const base = baseOf(rule.per, size)
  if (base === null) return null
  if (base === 0) return 0
  const times = rule.every === null ? base : stretchesOf(base, rule.every)
  const count = Math.max(0, rule.amount * times + rule.plus)
  return rule.unit === 'piece' ? Math.max(0, Math.ceil(count - 1e-9)) : count
}

function baseOf(per: RuleBase, size: RunSize): number | null {
  switch (per) {
    case 'run':
      return 1
    case 'end':
      return 2
    case 'line':
      return size.lines
    case 'post':
      return size.posts
    case 'plant':
      return size.plants
    case 'tie':
      return size.ties
    case 'm':
      return size.lengthM
    case 'm of line':
      return size.lines === null ? null : size.lines * size.lengthM
    case 'm2':
      return size.heightM === null ? null : size.heightM * size.lengthM
  }
}
