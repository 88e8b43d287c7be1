import type { SitingProblem } from '../../../geo/siting/problem.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'

export interface Size {
  readonly beds: number
  readonly years: number
  readonly families: number
  readonly sites: number
}

/** An invented problem: every limit and weight is there in some, and some can't be met. */
export function randomProblem(seed: number, { beds, years, families, sites }: Size): SitingProblem {
  const random = seededRandom(seed)
  const between = (low: number, high: number) => low + random() * (high - low)
  const whole = (low: number, high: number) => Math.floor(between(low, high + 1))
  const by = <T>(count: number, make: (n: number) => T): T[] => Array.from({ length: count }, (_, n) => make(n))
  const groups = by(families, (n) => ({
    name: `F${n}`,
    needM: between(2, (beds * 9) / families),
    returnYears: whole(1, 3),
  }))
  // In some, the second waits for the first too.
  const waits = groups.map(({ returnYears }, f) => groups.map((_, g) => (g === f ? returnYears : f === 0 ? 2 : 0)))
  return {
    years,
    families: groups,
    ...(seed % 4 === 0 && { waits }),
    insteadPerM: between(1, 5),
    usePerM: between(0.2, 2),
    budget: random() < 0.3 ? between(20, 120) : null,
    beds: by(beds, (n) => ({
      id: `b${n}`,
      lengthM: between(6, 14),
      rows: random() < 0.3 ? 2 : 1,
      fixed: random() < 0.15,
      freeFrom: groups.map(({ returnYears }) => (random() < 0.3 ? whole(0, returnYears - 1) : 0)),
      burden: groups.map((_, f) =>
        by(years, (t) => {
          const weighed = random() < 0.2 ? between(0, 20) : 0
          return seed % 5 === 0 && n === 0 && f === t ? Number.POSITIVE_INFINITY : weighed
        }),
      ),
      sites: by(sites, (s) => {
        const first = between(5, 60)
        return {
          side: (['left', 'right', 'middle'] as const)[s]!,
          earliest: random() < 0.2 ? 1 : 0,
          first,
          cost: by(years, (t) => first + (t === 0 && random() < 0.3 ? 10 : 0)),
          weighed: by(years, (t) => between(-3, 6) * (years - t)),
        }
      }),
    })),
  }
}
