import type { Polygon } from 'geojson'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'

/** A small farm, all of it invented, for looking at the page without a database: three fields of slanting beds. */
export const ORIGIN: LonLat = [15.6412, 46.3374]
export const plane = planeAbout(ORIGIN)

/** The same numbers on every run (mulberry32). */
export function seeded(seed: number): () => number {
  let a = seed
  return () => {
    a = (a + 0x6d2b79f5) | 0
    let t = Math.imul(a ^ (a >>> 15), 1 | a)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

export interface InventedBed {
  readonly id: string
  readonly name: string
  readonly field: string
  /** Place of one end's middle, direction of the long axis, and size, in metres and degrees from north. */
  readonly at: readonly [number, number]
  readonly bearingDeg: number
  readonly lengthM: number
  readonly widthM: number
}
export interface InventedField {
  readonly id: string
  readonly name: string
  readonly shape: Polygon
  readonly beds: readonly InventedBed[]
}

/** A place along and across a bed, in lon/lat. */
export function inBed(bed: InventedBed, alongM: number, rightM: number): LonLat {
  const b = (bed.bearingDeg * Math.PI) / 180
  const [x, y] = bed.at
  return plane.toLonLat([
    x + alongM * Math.sin(b) + rightM * Math.cos(b),
    y + alongM * Math.cos(b) - rightM * Math.sin(b),
  ])
}

export function box(bed: InventedBed, from: number, to: number, left: number, right: number): Polygon {
  const ring = [
    inBed(bed, from, right),
    inBed(bed, to, right),
    inBed(bed, to, left),
    inBed(bed, from, left),
    inBed(bed, from, right),
  ]
  return { type: 'Polygon', coordinates: [ring.map((at) => [...at])] }
}

function field(
  id: string,
  name: string,
  letter: string,
  at: readonly [number, number],
  bearingDeg: number,
  count: number,
  lengthM: number,
): InventedField {
  const b = (bearingDeg * Math.PI) / 180
  const beds = Array.from({ length: count }, (_, k): InventedBed => {
    const acrossM = k * 1.8
    return {
      id: `${id}-${k + 1}`,
      name: `${letter}${k + 1}`,
      field: id,
      at: [at[0] + acrossM * Math.cos(b), at[1] - acrossM * Math.sin(b)],
      bearingDeg,
      lengthM: lengthM - 0.25 * k,
      widthM: 1.2,
    }
  })
  const [first, last] = [beds[0]!, beds.at(-1)!]
  const ring = [
    inBed(first, -3, -3),
    inBed(last, -3, 3),
    inBed(last, last.lengthM + 4, 3),
    inBed(first, first.lengthM + 7, -3),
    inBed(first, -3, -3),
  ]
  return { id, name, beds, shape: { type: 'Polygon', coordinates: [ring.map((p) => [...p])] } }
}

export const FIELDS: readonly InventedField[] = [
  field('f1', 'Mill Acre', 'M', [-60, 20], 78, 20, 36),
  field('f2', 'Upper Slope', 'U', [10, 42], 70, 16, 30),
  field('f3', 'By the Brook', 'K', [5, -15], 82, 14, 28),
]
export const BEDS = FIELDS.flatMap(({ beds }) => beds)
