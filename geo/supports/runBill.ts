import { countPart, type RunSize } from './countPart.ts'
import { standsInGround } from './partKind.ts'
import type { PartUnit } from './partRule.ts'
import { postPlaces } from './postPlaces.ts'
import type { Recipe, RecipePart } from './recipe.ts'

/** What a bill is made out for. */
export interface BilledRun {
  readonly lengthM: number
  /** Its own height, where it has one; else its system's counts. */
  readonly heightM: number | null
  readonly plants: number | null
  readonly permanent: boolean
  /** Of each part, how many posts that stood before serve it: they are not billed. */
  readonly postsThere?: Readonly<Record<string, number>>
}

export interface BilledPart {
  readonly part: string
  /** Null where the rule can't be counted, or counts by what is not known of this run. */
  readonly count: number | null
  readonly unit: PartUnit
  readonly cost: number | null
  readonly costPerSeason: number | null
}

/** What a run takes. Sums are of what is known; `unknown` names the parts whose count or price is not. */
export interface RunBill {
  readonly parts: readonly BilledPart[]
  readonly unknown: readonly string[]
  readonly costNow: number
  readonly partsPerSeason: number
  /** Labour: to put up and take down once, and in each season. */
  readonly minutes: { readonly puttingUp: number; readonly eachSeason: number; readonly takingDown: number }
  /** Seasons over which putting up and taking down are spread. */
  readonly seasonsUp: number
  readonly minutesPerSeason: number
}

/** Counts and prices a run: cost a season = each part over the seasons it lasts, labour over those it is left up. */
export function runBill(run: BilledRun, recipe: Recipe): RunBill {
  const size = sizeOf(run, recipe)
  const there = new Map(Object.entries(run.postsThere ?? {}))
  const parts = recipe.parts.map((part) => {
    const needed = part.rule && countPart(part.rule, size)
    const reused = standsInGround(part.kind) ? Math.min(there.get(part.part) ?? 0, needed ?? 0) : 0
    if (reused > 0) there.set(part.part, there.get(part.part)! - reused)
    return billed(part, needed === null ? null : needed - reused)
  })
  const seasonsUp = run.permanent ? standsFor(recipe.parts) : 1
  const minutesIn = (phase: Recipe['work'][number]['phase']) =>
    run.lengthM * sum(recipe.work.map((work) => (work.phase === phase ? (work.minutesPerM ?? 0) : 0)))
  const minutes = {
    puttingUp: minutesIn('putting up'),
    eachSeason: minutesIn('each season'),
    takingDown: minutesIn('taking down'),
  }
  return {
    parts,
    unknown: parts.filter(({ cost }) => cost === null).map(({ part }) => part),
    costNow: sum(parts.map(({ cost }) => cost ?? 0)),
    partsPerSeason: sum(parts.map(({ costPerSeason }) => costPerSeason ?? 0)),
    minutes,
    seasonsUp,
    minutesPerSeason: minutes.eachSeason + (minutes.puttingUp + minutes.takingDown) / seasonsUp,
  }
}

/** The size of a run by its recipe: posts are counted first, then ties, since other parts may count by them. */
export function sizeOf({ lengthM, heightM, plants }: BilledRun, recipe: Recipe): RunSize {
  const size: RunSize = {
    lengthM,
    heightM: heightM ?? recipe.heightM,
    lines: recipe.lines,
    plants,
    posts: null,
    ties: null,
  }
  const standing = recipe.parts.filter(({ kind }) => standsInGround(kind))
  const posts = countAll(standing, size)
  return {
    ...size,
    posts,
    ties: countAll(
      recipe.parts.filter(({ kind }) => kind === 'tie'),
      { ...size, posts },
    ),
  }
}

/** Posts of a run, each with its part; places of parts that can't be counted are left out. */
export function postsOf(run: BilledRun, recipe: Recipe): { part: string; atM: number; count: number }[] {
  const size = sizeOf(run, recipe)
  return recipe.parts
    .filter(({ kind }) => standsInGround(kind))
    .flatMap(({ part, rule }) => (rule ? (postPlaces(rule, size) ?? []) : []).map((place) => ({ part, ...place })))
}

/**
 * Seasons that a permanent run stands before it must be made anew: as long as the first of its posts to go, or, where
 * nothing stands in the ground, as its longest-lasting part; 1 where nothing is known.
 */
export function standsFor(parts: readonly RecipePart[]): number {
  const seasons = (of: readonly RecipePart[]) => of.flatMap(({ lastsSeasons }) => lastsSeasons ?? [])
  const posts = seasons(parts.filter(({ kind }) => standsInGround(kind)))
  return Math.max(1, posts.length > 0 ? Math.min(...posts) : Math.max(1, ...seasons(parts)))
}

/** A part lasts one season where it is not told how many. */
function billed({ part, rule, unitCost, lastsSeasons }: RecipePart, count: number | null): BilledPart {
  const cost = count === null || unitCost === null ? null : count * unitCost
  return {
    part,
    count,
    unit: rule?.unit ?? 'piece',
    cost,
    costPerSeason: cost === null ? null : cost / Math.max(1, lastsSeasons ?? 1),
  }
}

function countAll(parts: readonly RecipePart[], size: RunSize): number | null {
  const counts = parts.map(({ rule }) => rule && countPart(rule, size))
  return counts.length === 0 || counts.includes(null) ? null : sum(counts.map((count) => count ?? 0))
}

const sum = (of: readonly number[]) => of.reduce((total, one) => total + one, 0)
