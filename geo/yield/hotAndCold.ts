import { benjaminiHochberg } from './benjaminiHochberg.ts'
import { type ChanceRecords, coldestDealt } from './coldestDealt.ts'
import { giStar, gOfSet, spreadOf } from './giStar.ts'
import { type Moran, moran } from './moran.ts'
import { twoSidedP } from './normal.ts'
import { neighboursWithin } from './pointGrid.ts'
import type { Stretch } from './stretches.ts'

/** How far a yield index lies from chance: standardised G, two-sided p, false discovery rate q. */
export type Standing = { readonly z: number; readonly p: number; readonly q: number }

export type HotAndCold = {
  /** For each stretch; null where nothing was expected or too little is known. */
  readonly stretches: readonly (Standing | null)[]
  /** For each bed, of all its stretches together. */
  readonly beds: readonly (Standing | null)[]
  /**
   * The z below which chance alone would put the coldest stretch of the whole farm three times in a hundred; null
   * where too little is known.
   */
  readonly coldestByChance: number | null
  /** Whether high and low stretches lie in patches at all. */
  readonly patches: Moran | null
  /** Why there is too little to tell, in plain words; null where there is enough. */
  readonly tooLittle: string | null
}

/** Fewer stretches than this tell too little: G is near enough normal only for larger numbers. */
const FEWEST = 30

/**
 * Gi* of the yield index over stretches, itself and those whose centres lie within `bandM` counted with weight 1, and
 * G of each bed's own stretches together; false discovery rates over stretches and over beds.
 */
export function hotAndCold(
  all: readonly Stretch[],
  bedCount: number,
  bandM: number,
  records: ChanceRecords,
): HotAndCold {
  const told = all.flatMap((s, k) => (s.expectedKg > 0 ? [k] : []))
  const index = told.map((k) => all[k]!.kg / all[k]!.expectedKg)
  const spread = spreadOf(index)
  const tooLittle = whyTooLittle(
    index.length,
    all.some((s) => s.kg > 0),
    spread.sd,
  )
  const none = { stretches: all.map(() => null), beds: new Array<null>(bedCount).fill(null) }
  const nothing = { ...none, coldestByChance: null, patches: null }
  if (tooLittle !== null) return { ...nothing, tooLittle }

  const near = neighboursWithin(
    told.map((k) => all[k]!.x),
    told.map((k) => all[k]!.y),
    bandM,
  )
  const ofStretch: (Standing | null)[] = all.map(() => null)
  standings(giStar(index, near)).forEach((standing, i) => {
    ofStretch[told[i]!] = standing
  })
  const own: number[][] = Array.from({ length: bedCount }, () => [])
  told.forEach((k, i) => {
    own[all[k]!.bed]!.push(i)
  })
  const beds = standings(own.map((set) => gOfSet(index, set, spread)))
  const coldestByChance = coldestDealt(
    told.map((k) => all[k]!),
    near,
    records,
  )
  return { stretches: ofStretch, beds, coldestByChance, patches: patchesOf(index, near), tooLittle: null }
}

function whyTooLittle(count: number, anyPicked: boolean, sd: number): string | null {
  if (!anyPicked) return 'Nothing that can be compared was picked in this season.'
  if (count < FEWEST) {
    return `There are ${count} stretches of bed to compare; it takes ${FEWEST} to tell hot and cold from chance.`
  }
  if (sd === 0) return 'Every stretch gave the same share of what was expected of it.'
  return null
}

function standings(zs: readonly (number | null)[]): (Standing | null)[] {
  const told = zs.flatMap((z, k) => (z === null ? [] : [{ k, z, p: twoSidedP(z) }]))
  const q = benjaminiHochberg(told.map(({ p }) => p))
  const out: (Standing | null)[] = zs.map(() => null)
  told.forEach(({ k, z, p }, at) => {
    out[k] = { z, p, q: q[at]! }
  })
  return out
}

/** Moran's I over the stretches that have a neighbour. */
function patchesOf(index: readonly number[], near: readonly (readonly number[])[]): Moran | null {
  const kept = near.flatMap((list, i) => (list.length > 0 ? [i] : []))
  const place = new Map(kept.map((i, k) => [i, k]))
  return moran(
    kept.map((i) => index[i]!),
    kept.map((i) => near[i]!.map((j) => place.get(j)!)),
  )
}
