import fc from 'fast-check'
import type { Ring } from '../../../geo/yield/ring.ts'

/** A rectangle: one corner, its length along a bearing in radians from east, its width to the left of that. */
export function rectangle(x: number, y: number, lengthM: number, widthM: number, turn = 0): Ring {
  const [ux, uy] = [Math.cos(turn), Math.sin(turn)]
  const at = (s: number, t: number): number[] => [x + ux * s - uy * t, y + uy * s + ux * t]
  return [...at(0, 0), ...at(lengthM, 0), ...at(lengthM, widthM), ...at(0, widthM)]
}

const mm = (metres: number): number => Math.round(metres * 1000) / 1000

/**
 * Star-shaped outlines, mostly not convex, some metres across, within 4 km of the origin, to the millimetre; half of
 * them with a hole of the same shape about the star's middle.
 */
export const starRings: fc.Arbitrary<Ring[]> = fc
  .record({
    x: fc.integer({ min: -4000, max: 4000 }),
    y: fc.integer({ min: -4000, max: 4000 }),
    radiiMm: fc.array(fc.integer({ min: 600, max: 12_000 }), { minLength: 3, maxLength: 14 }),
    hole: fc.boolean(),
  })
  .map(({ x, y, radiiMm, hole }) => {
    const corner = (r: number, k: number): number[] => {
      const turn = (2 * Math.PI * (k + 0.37)) / radiiMm.length
      return [mm(x + r * Math.cos(turn)), mm(y + r * Math.sin(turn))]
    }
    const outer = radiiMm.flatMap((r, k) => corner(r / 1000, k))
    const inner = radiiMm.map((r, k) => corner((r / 1000) * 0.3, k)).reverse()
    return hole ? [outer, inner.flat()] : [outer]
  })

/** A shape moved by so much. */
export function moved(rings: readonly Ring[], dx: number, dy: number): Ring[] {
  return rings.map((ring) => ring.map((v, k) => mm(v + (k % 2 === 0 ? dx : dy))))
}
