import type { Area } from '../../../../geo/layout/area.ts'
import { positionsOf } from '../../../../geo/plane/geometry.ts'
import { type Plane, planeAbout } from '../../../../geo/plane/plane.ts'
import { shapeOf } from '../../../draw/shape.ts'
import type { Layers } from '../../state/door.ts'
import { openFarm } from '../../state/farm.ts'

/** The plane of the farm; about a place of it where the page was not told its origin yet. */
export function farmPlane(layers: Layers): Plane | null {
  const origin = openFarm.value?.origin
  if (origin) return planeAbout(origin)
  const field = layers.fields.features[0]
  const [first] = field ? [...positionsOf(field.geometry)] : []
  return first ? planeAbout([first[0]!, first[1]!]) : null
}

/** A field's or bed's outline in the plane; null where the map has none. */
export function areaOf(layers: Layers, layer: 'fields' | 'beds', id: string, plane: Plane): Area | null {
  const geometry = (layers[layer].features as { geometry: GeoJSON.Geometry; properties: { id: string } }[]).find(
    ({ properties }) => properties.id === id,
  )?.geometry
  return geometry?.type === 'Polygon' || geometry?.type === 'MultiPolygon' ? shapeOf(geometry, plane).parts : null
}
