import fc from 'fast-check'
import type { Ring } from '../../../geo/yield/ring.ts'
import { seasonSpan } from '../../../geo/yield/season.ts'
import { seededRandom } from '../../../geo/yield/seededRandom.ts'
import type { PickSum, PickSums, YieldBed, YieldInput, YieldPlanting, YieldRow } from '../../../geo/yield/yieldInput.ts'
import { rectangle } from './shapes.ts'

/** Sums of picks, each of one pick where nothing else is said. */
type SomePicks = {
  readonly [K in 'plantings' | 'beds' | 'spots']?: readonly (Omit<PickSums[K][number], 'picks'> & Partial<PickSum>)[]
} & { readonly unweighed?: number }

/** A season of an invented farm from its parts. */
export function season(parts: Omit<Partial<YieldInput>, 'picks'> & { picks?: SomePicks }): YieldInput {
  const none = { beds: [], rows: [], plantings: [] }
  const { plantings = [], beds = [], spots = [], unweighed = 0 } = parts.picks ?? {}
  const picks: PickSums = {
    plantings: plantings.map((sum) => ({ picks: 1, ...sum })),
    beds: beds.map((sum) => ({ picks: 1, ...sum })),
    spots: spots.map((sum) => ({ picks: 1, ...sum })),
    unweighed,
  }
  return { season: 2025, span: seasonSpan(2025, 1), ...none, ...parts, picks }
}

/** A planting that stood from May to October 2025, on a row or told only by bed. */
export function planting(id: string, bed: string, crop: string, more: Partial<YieldPlanting> = {}): YieldPlanting {
  const dates = { setOut: '2025-05-01', cleared: '2025-10-20' }
  return { id, bed, crop, row: null, fromM: null, toM: null, middle: null, ...dates, ...more }
}

/** A bed with rows evenly across it, along its length. */
export function bedWithRows(id: string, ring: Ring, rows: number): { bed: YieldBed; rows: YieldRow[] } {
  const between = (a: number, b: number, f: number): number => a + (b - a) * f
  const lines = Array.from({ length: rows }, (_, k) => {
    const f = (k + 0.5) / rows
    const at = (from: number, to: number): number[] => [
      between(ring[from]!, ring[to]!, f),
      between(ring[from + 1]!, ring[to + 1]!, f),
    ]
    return { id: `${id}-${k}`, bed: id, line: [...at(0, 6), ...at(2, 4)] }
  })
  return { bed: { id, rings: [ring] }, rows: lines }
}

/** Farms of a few fields of oblique beds with all kinds of picks, made from a seed. */
export const farms: fc.Arbitrary<YieldInput> = fc.integer({ min: 1, max: 1e9 }).map((seed) => {
  const random = seededRandom(seed)
  const parts = { beds: [] as YieldBed[], rows: [] as YieldRow[], plantings: [] as YieldPlanting[] }
  const picks = { plantings: [] as { planting: string; kg: number }[], beds: [] as { bed: string; kg: number }[] }
  const spots: { x: number; y: number; kg: number }[] = []
  for (let field = 0; field < 3; field += 1) {
    const turn = random() * Math.PI
    const [x, y] = [(random() - 0.5) * 6000, (random() - 0.5) * 6000]
    for (let b = 0; b < 4; b += 1) {
      const id = `bed ${field} ${b}`
      const step = 1.7 * b
      const ring = rectangle(x - Math.sin(turn) * step, y + Math.cos(turn) * step, 6 + random() * 20, 1.2, turn)
      const { bed, rows } = bedWithRows(id, ring, 1 + Math.floor(random() * 3))
      parts.beds.push(bed)
      parts.rows.push(...rows)
      for (const row of rows) {
        if (random() < 0.2) continue
        const name = `planting ${row.id}`
        const stretch = random() < 0.3 ? {} : { fromM: random() * 3, toM: 4 + random() * 25 }
        parts.plantings.push(planting(name, id, `crop ${Math.floor(random() * 3)}`, { row: row.id, ...stretch }))
        if (random() < 0.8) picks.plantings.push({ planting: name, kg: random() * 30 })
      }
      if (random() < 0.3) picks.beds.push({ bed: id, kg: random() * 10 })
      if (random() < 0.7) spots.push({ x: ring[0]! + random() * 4 - 2, y: ring[1]! + random() * 4 - 2, kg: random() })
    }
  }
  return season({ ...parts, picks: { ...picks, spots } })
})

export const SETTINGS = { cellM: 1, smoothM: 1.5, stretchM: 4, bandM: 6, alpha: 0.05 } as const
