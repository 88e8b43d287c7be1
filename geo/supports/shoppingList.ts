import type { Materials } from './materialsOf.ts'
import { packRolls } from './packRolls.ts'
import type { PartUnit } from './partRule.ts'
import type { InStore } from './partsInStore.ts'

/** One line of what is to be bought. */
export interface ToBuy {
  readonly part: string
  readonly unit: PartUnit
  /** Null where it can't be counted. */
  readonly needed: number | null
  readonly inStore: number
  /** Needed less what is in store, never below zero; pieces are whole. */
  readonly toBuy: number | null
  /** Whole rolls, and their length, where it is sold so; cut from what is not in store. */
  readonly rolls: number | null
  readonly rollM: number | null
  /** Of what is to be bought, by its share of what is needed: no whole rolls. Null where nothing tells a price. */
  readonly cost: number | null
}

/**
 * What is needed less what is in store under the same name: pieces from its count, lengths from its metres. What is in
 * store by the metre counts as one length: the longest cuts that fit it are taken from it, the rest packed into rolls.
 */
export function shoppingList(materials: Materials, inStore: readonly InStore[]): ToBuy[] {
  return materials.parts.map(({ part, unit, count, cost }) => {
    const there = inStore
      .filter((one) => sameName(one.part, part))
      .reduce((sum, one) => sum + ((unit === 'piece' ? one.count : unit === 'm' ? one.metres : null) ?? 0), 0)
    const toBuy = count === null ? null : Math.max(0, count - there)
    const packed = unit === 'm' ? materials.rolls.filter((rolls) => rolls.part === part) : []
    return {
      part,
      unit,
      needed: count,
      inStore: there,
      toBuy,
      rolls: packed.length === 0 ? null : rollsBeside(packed, there),
      rollM: packed[0]?.rollM ?? null,
      cost: cost === null || toBuy === null ? null : count! > 0 ? (cost * toBuy) / count! : 0,
    }
  })
}

/** Rolls for the cuts that a length in store does not give. */
function rollsBeside(packed: Materials['rolls'], thereM: number): number {
  let leftM = thereM
  return packed.reduce((sum, { cuts, rollM }) => {
    const rest = cuts
      .flat()
      .sort((a, b) => b - a)
      .filter((cutM) => {
        if (cutM > leftM + 1e-9) return true
        leftM -= cutM
        return false
      })
    return sum + (rest.length === 0 ? 0 : packRolls(rest, rollM).rolls.length)
  }, 0)
}

const sameName = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase()
