import { beforeAll, expect, it } from 'vitest'
import { drawMap } from '../../../src/print/map/drawMap.ts'
import { namingBeds } from '../../../src/print/map/namingBeds.ts'
import type { Mark } from '../../../src/print/marks.ts'
import type { Type } from '../../../src/print/type/openFonts.ts'
import { PLANE, smallFarm } from './smallFarm.ts'
import { bundledType } from './type.ts'

let type: Type
beforeAll(() => {
  type = bundledType()
})

const textsIn = (mark: Mark): string[] =>
  mark.draw === 'text' ? [mark.text] : mark.draw === 'group' ? mark.marks.flatMap(textsIn) : []

/** What stands written on a farm's map at a scale, 200 mm by 100 mm; `named` as beds are named, or as the theme has it. */
function written(scale: number, named: readonly string[] | null, farm = smallFarm()): string[] {
  const frame = { box: { xMm: 0, yMm: 0, wideMm: 200, highMm: 100 }, centre: [0, 0] as const, scale, upDeg: 0 }
  const layers = named ? namingBeds(farm.layers, named) : farm.layers
  return textsIn(drawMap({ ...farm, layers }, PLANE, frame, type, false))
}

it('names the beds asked for at a scale too small for the names of all, and no others', () => {
  expect(written(1000, null)).not.toContain('B1')
  expect(written(1000, ['b'])).toContain('B1')
  expect(written(500, null)).toContain('B1')
  expect(written(500, ['another'])).not.toContain('B1')
})

it('names beds that lie too close for their names side by side', () => {
  const farm = smallFarm()
  const [bed] = farm.sources.beds!.features
  const ids = ['b0', 'b1', 'b2', 'b3', 'b4']
  // Beds of 75 cm with paths of 45 cm, 40 m long: 1.2 mm from one to the next at 1:1000, where letters are of 2.1 mm.
  const strip = (n: number) =>
    [
      [-20, n * 1.2],
      [20, n * 1.2],
      [20, n * 1.2 + 0.75],
      [-20, n * 1.2 + 0.75],
      [-20, n * 1.2],
    ].map(([e, north]) => [...PLANE.toLonLat([e!, north!])])
  const features = ids.map((id, n) => ({
    ...bed!,
    properties: { ...bed!.properties, id, name: `N${n}` },
    geometry: { type: 'Polygon' as const, coordinates: [strip(n)] },
  }))
  const close = { ...farm, sources: { ...farm.sources, beds: { type: 'FeatureCollection' as const, features } } }
  const names = written(1000, ids, close).filter((text) => /^N\d$/.test(text))
  expect(names.sort()).toEqual(['N0', 'N1', 'N2', 'N3', 'N4'])
})
