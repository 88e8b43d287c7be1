import type { MultiPolygon, Polygon } from 'geojson'
import type { Bounds } from '../../map/farmMap.ts'

export function boundsOfArea(area: Polygon | MultiPolygon): Bounds {
  const rings = area.type === 'Polygon' ? area.coordinates : area.coordinates.flat()
  const all = rings.flat()
  const lons = all.map(([lon]) => lon!)
  const lats = all.map(([, lat]) => lat!)
  return {
    southWest: [Math.min(...lons), Math.min(...lats)],
    northEast: [Math.max(...lons), Math.max(...lats)],
  }
}
