import fc from 'fast-check'
import type { Metres } from '../../../../geo/plane/lonLat.ts'
import type { Corners } from '../../../../src/draw/shape.ts'

const metres = (most: number) => fc.double({ min: -most, max: most, noNaN: true })
export const places: fc.Arbitrary<Metres> = fc.tuple(metres(3000), metres(3000))

/** Outlines that don't cross themselves: corners at any distance round a middle, in order of direction. */
export const outlines: fc.Arbitrary<Corners> = fc
  .record({
    about: places,
    radii: fc.array(fc.double({ min: 5, max: 60, noNaN: true }), { minLength: 3, maxLength: 12 }),
    lean: fc.double({ min: 0, max: 6, noNaN: true }),
  })
  .map(({ about, radii, lean }) =>
    radii.map((r, i): Metres => {
      const a = lean + (2 * Math.PI * i) / radii.length
      return [about[0] + r * Math.cos(a), about[1] + r * Math.sin(a)]
    }),
  )

export const middle = (ring: Corners): Metres => [
  ring.reduce((sum, p) => sum + p[0], 0) / ring.length,
  ring.reduce((sum, p) => sum + p[1], 0) / ring.length,
]

export const rectangle = (lengthM: number, widthM: number, deg: number, at: Metres): Corners => {
  const a = (deg * Math.PI) / 180
  return [
    [0, 0],
    [lengthM, 0],
    [lengthM, widthM],
    [0, widthM],
  ].map(([x, y]): Metres => [at[0] + x! * Math.cos(a) - y! * Math.sin(a), at[1] + x! * Math.sin(a) + y! * Math.cos(a)])
}
