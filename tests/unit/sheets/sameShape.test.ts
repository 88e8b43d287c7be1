import { describe, expect, it } from 'vitest'
import { mapPositions } from '../../../geo/plane/geometry.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'
import { sameShape } from '../../../src/sheets/ground/sameShape.ts'

const line = (coordinates: number[][]) => ({ type: 'LineString' as const, coordinates })

describe('whether a shape was changed', () => {
  it('does not mind the way through the plane and back', () => {
    const plane = planeAbout([15.6412, 46.3374])
    const drawn = line([
      [15.6412, 46.3374],
      [15.6423, 46.3381],
      [15.6431, 46.3379],
    ])
    const there = mapPositions(
      mapPositions(drawn, (at) => plane.toMetres(at)),
      (at) => plane.toLonLat([at[0], at[1]]),
    )
    expect(sameShape(drawn, there as typeof drawn)).toBe(true)
  })

  it('sees a corner that was moved by a millimetre, left out, or put elsewhere in the order', () => {
    const corners = [
      [0, 0],
      [1e-4, 0],
      [1e-4, 1e-4],
    ]
    expect(sameShape(line(corners), line([[0, 1e-8], ...corners.slice(1)]))).toBe(false)
    expect(sameShape(line(corners), line(corners.slice(1)))).toBe(false)
    expect(sameShape(line(corners), line([...corners].reverse()))).toBe(false)
  })
})
