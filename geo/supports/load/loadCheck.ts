import { standsInGround } from '../partKind.ts'
import type { Recipe, RecipePart } from '../recipe.ts'
import { type BilledRun, postsOf } from '../runBill.ts'
import { postBendingPa, roundSectionM3, type Wind, windPressurePa } from './wind.ts'
import { GRAVITY, loadedPullN, parabolaSagM, parabolaTensionN, wireAreaM2 } from './wire.ts'

/** What bears on a run, and what is assumed of it. */
export interface LoadCase {
  /** Vines and fruit on the top line; the wire's own weight comes to it. */
  readonly loadNPerM: number
  readonly wind: Wind
  /** Force coefficient of the leafed side, its gaps counted in. */
  readonly leafCoefficient: number
}

/** How one part stands: `share` of what it bears, 1 where it gives. */
export interface PartCheck {
  readonly what: 'top line' | 'post in the wind' | 'end post'
  readonly part: string
  readonly share: number
}

/** The top line of a run under its load. Null where the run has no wire whose thickness is known. */
export interface TopLine {
  readonly part: string
  readonly spanM: number
  readonly loadNPerM: number
  readonly sagM: number
  readonly tensionN: number
  readonly breakingN: number
  /** Breaking load over tension. */
  readonly safety: number
  /** What was not told and so assumed. */
  readonly assumed: readonly string[]
}

export interface LoadCheck {
  readonly topLine: TopLine | null
  /** Those that can be reckoned, the one that gives first at the head. */
  readonly checks: readonly PartCheck[]
}

/** Steel (common handbook values, from memory). */
const STEEL_GPA = 200
const STEEL_KG_PER_M3 = 7850
/** Strained to so much of its breaking load, where nobody told. */
const ASSUMED_STRAIN = 0.1

/** Checks a run under vines, fruit and wind: top line, posts, and end posts that no brace holds. An indication, never a design. */
export function loadCheck(run: BilledRun, recipe: Recipe, load: LoadCase): LoadCheck {
  const spacingM = widestGapM(run, recipe)
  const heightM = run.heightM ?? recipe.heightM
  const topLine = spacingM === null ? null : topLineOf(recipe, spacingM, load.loadNPerM)
  const checks: PartCheck[] = []
  if (topLine) checks.push({ what: 'top line', part: topLine.part, share: topLine.tensionN / topLine.breakingN })
  const leafed = spacingM !== null && heightM !== null && { spacingM, heightM }
  for (const post of recipe.parts.filter(({ kind }) => standsInGround(kind))) {
    const section = sectionOf(post)
    if (!section) continue
    if (leafed && post.kind === 'post') {
      const pressurePa = windPressurePa(load.wind)
      const bendingPa = postBendingPa({
        ...leafed,
        pressurePa,
        coefficient: load.leafCoefficient,
        sectionM3: section.m3,
      })
      checks.push({ what: 'post in the wind', part: post.part, share: bendingPa / section.strengthPa })
    }
    if (topLine && heightM !== null && endsWith(recipe, post) && !recipe.parts.some(({ kind }) => kind === 'brace'))
      checks.push({
        what: 'end post',
        part: post.part,
        share: (topLine.tensionN * heightM) / section.m3 / section.strengthPa,
      })
  }
  return { topLine, checks: checks.sort((a, b) => b.share - a.share) }
}

/** The widest gap between posts next to each other; null where no post can be placed. */
export function widestGapM(run: BilledRun, recipe: Recipe): number | null {
  const at = [...new Set(postsOf(run, recipe).map(({ atM }) => atM))].sort((a, b) => a - b)
  if (at.length < 2) return null
  return Math.max(...at.slice(1).map((m, n) => m - at[n]!))
}

function topLineOf(recipe: Recipe, spanM: number, hungNPerM: number): TopLine | null {
  const part = recipe.parts.find(({ kind }) => kind === 'wire')
  if (!part || part.diameterMm === null || part.strengthMPa === null) return null
  const areaM2 = wireAreaM2(part.diameterMm / 1000)
  const breakingN = part.strengthMPa * 1e6 * areaM2
  const assumed = [
    ...(part.strengthByName ? ['strength by the grade that its name tells'] : []),
    ...(recipe.tensionN === null ? ['strained to a tenth of what breaks it'] : []),
    ...(part.modulusGPa === null ? ['stretch of steel, 200 GPa'] : []),
  ]
  const initialTensionN = recipe.tensionN ?? breakingN * ASSUMED_STRAIN
  const load = { spanM, loadNPerM: hungNPerM + areaM2 * STEEL_KG_PER_M3 * GRAVITY }
  const pullN = loadedPullN(load, { areaM2, modulusPa: (part.modulusGPa ?? STEEL_GPA) * 1e9, initialTensionN })
  const tensionN = parabolaTensionN(load, pullN)
  return {
    part: part.part,
    ...load,
    sagM: parabolaSagM(load, pullN),
    tensionN,
    breakingN,
    safety: breakingN / tensionN,
    assumed,
  }
}

function sectionOf({ diameterMm, strengthMPa }: RecipePart): { m3: number; strengthPa: number } | null {
  return diameterMm === null || strengthMPa === null
    ? null
    : { m3: roundSectionM3(diameterMm / 1000), strengthPa: strengthMPa * 1e6 }
}

/** Whether this part stands at the ends: the end posts, or the posts where there are no others. */
const endsWith = (recipe: Recipe, post: RecipePart) =>
  post.kind === 'end post' || !recipe.parts.some(({ kind }) => kind === 'end post')
