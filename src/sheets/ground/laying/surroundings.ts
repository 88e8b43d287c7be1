import type { Geometry, Position } from 'geojson'
import type { Area, Segment } from '../../../../geo/layout/area.ts'
import type { Obstacle } from '../../../../geo/layout/openSpans.ts'
import type { AnyRecord } from '../../../../geo/model/kind.ts'
import type { Plane } from '../../../../geo/plane/plane.ts'
import type { Layers } from '../../state/door.ts'
import type { ClearOf } from './readPlans.ts'

/** What beds must keep clear of: canopies (or trunks, where no canopy is known), structures, and beds that are not given up. */
export function obstaclesOf(
  layers: Layers,
  beds: readonly AnyRecord[],
  on: string,
  clear: ClearOf,
  plane: Plane,
): Obstacle[] {
  const canopyM = new Map<string, number>()
  for (const { properties } of layers.canopies.features)
    if (properties.ring === 'canopy') canopyM.set(properties.id, properties.radius_m)
  return [
    ...layers.trees.features.map(({ geometry, properties }) =>
      obstacleOf(geometry, clear.treesM + (canopyM.get(properties.id) ?? properties.canopy_radius_m ?? 0), plane),
    ),
    ...layers.structures.features.map(({ geometry }) => obstacleOf(geometry, clear.structuresM, plane)),
    ...beds.flatMap(({ geom, retired }) =>
      geom && !(typeof retired === 'string' && retired <= on) ? [obstacleOf(geom, clear.bedsM, plane)] : [],
    ),
  ]
}

function obstacleOf(geometry: Geometry, clearM: number, plane: Plane): Obstacle {
  const area: Area[number][] = []
  const edges: Segment[] = []
  const metres = (p: Position) => plane.toMetres([p[0]!, p[1]!])
  const line = (positions: readonly Position[]) => {
    const places = positions.map(metres)
    for (let n = 0; n + 1 < places.length; n += 1) edges.push([places[n]!, places[n + 1]!])
    if (places.length === 1) edges.push([places[0]!, places[0]!])
  }
  const take = (shape: Geometry): void => {
    switch (shape.type) {
      case 'Point':
        line([shape.coordinates])
        break
      case 'MultiPoint':
        for (const p of shape.coordinates) line([p])
        break
      case 'LineString':
        line(shape.coordinates)
        break
      case 'MultiLineString':
        for (const one of shape.coordinates) line(one)
        break
      case 'Polygon':
        area.push(...shape.coordinates.map((ring) => ring.slice(0, -1).map(metres)))
        break
      case 'MultiPolygon':
        area.push(...shape.coordinates.flat().map((ring) => ring.slice(0, -1).map(metres)))
        break
      case 'GeometryCollection':
        for (const part of shape.geometries) take(part)
    }
  }
  take(geometry)
  return { area, edges, clearM }
}
