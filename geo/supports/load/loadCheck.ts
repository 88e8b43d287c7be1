import { standsInGround } from '../partKind.ts'
import type { Recipe, RecipePart } from '../recipe.ts'
import { type BilledRun, postsOf } from '../runBill.ts'
import { postBendingPa, roundSectionM3, type Wind, windPressurePa } from './wind.ts'
import { GRAVITY, loadedPullN, parabolaSagM, parabolaTensionN, type WireLoad, wireAreaM2 } from './wire.ts'

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
  /** Strained lines one above another, itself among them; each of the others pulls with `othersTensionN`. */
  readonly lines: number
  readonly othersTensionN: number
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

/**
 * Checks a run under vines, fruit and wind: top line, posts, and end posts that no brace holds. On the safe side: all that
 * hangs bears on the top line, the wind meets the leafed side from the ground to the top, and an end post takes the pull
 * of every line by itself. Not on the safe side, and not reckoned: wet soil that gives, knots, rust and rot, a wire
 * strained further than was told, and wind that shakes. An indication, never a design.
 */
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
        share: endMomentNM(topLine, heightM) / section.m3 / section.strengthPa,
      })
  }
  return { topLine, checks: checks.sort((a, b) => b.share - a.share) }
}

/**
 * Moment at the ground of an end post, N·m: each strained line's pull times its height, Σ T·h. Lines are taken to be
 * spread evenly from the ground to the head of the post, the top line at its head.
 */
export function endMomentNM(
  { tensionN, lines, othersTensionN }: Pick<TopLine, 'tensionN' | 'lines' | 'othersTensionN'>,
  heightM: number,
): number {
  const others = Array.from({ length: lines - 1 }, (_, n) => (othersTensionN * heightM * (n + 1)) / lines)
  return others.reduce((sum, momentNM) => sum + momentNM, tensionN * heightM)
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
  const ownNPerM = areaM2 * STEEL_KG_PER_M3 * GRAVITY
  const load = { spanM, loadNPerM: hungNPerM + ownNPerM }
  const wire = { areaM2, modulusPa: (part.modulusGPa ?? STEEL_GPA) * 1e9, initialTensionN }
  const tensionUnder = (of: WireLoad) => parabolaTensionN(of, loadedPullN(of, wire))
  const tensionN = tensionUnder(load)
  return {
    part: part.part,
    ...load,
    sagM: parabolaSagM(load, loadedPullN(load, wire)),
    tensionN,
    breakingN,
    safety: breakingN / tensionN,
    lines: strainedLines(recipe),
    othersTensionN: tensionUnder({ spanM, loadNPerM: ownNPerM }),
    assumed,
  }
}

/**
 * Strained lines of a system with a wire: as many as it tells, or as the rules of its wires have metres for each metre
 * where that is more. Strings among the lines that it tells count as wires, which is on the safe side.
 */
function strainedLines({ parts, lines }: Recipe): number {
  const byRule = parts
    .filter(({ kind }) => kind === 'wire')
    .reduce((sum, { rule }) => sum + (rule?.per === 'm' ? Math.max(1, Math.floor(rule.amount)) : 1), 0)
  return Math.max(1, Math.floor(lines ?? 1), byRule)
}

function sectionOf({ diameterMm, strengthMPa }: RecipePart): { m3: number; strengthPa: number } | null {
  return diameterMm === null || strengthMPa === null
    ? null
    : { m3: roundSectionM3(diameterMm / 1000), strengthPa: strengthMPa * 1e6 }
}

/** Whether this part stands at the ends: the end posts, or the posts where there are no others. */
const endsWith = (recipe: Recipe, post: RecipePart) =>
  post.kind === 'end post' || !recipe.parts.some(({ kind }) => kind === 'end post')
