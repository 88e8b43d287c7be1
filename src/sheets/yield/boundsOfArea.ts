import type { Bounds } from '../../map/farmMap.ts'
import type { Area } from './yieldView.ts'

export function boundsOfArea(area: Area): Bounds {
  const rings = area.type === 'Polygon' ? area.coordinates : area.coordinates.flat()
  const all = rings.flat()
  const lons = all.map(([lon]) => lon!)
  const lats = all.map(([, lat]) => lat!)
  return {
    southWest: [Math.min(...lons), Math.min(...lats)],
    northEast: [Math.max(...lons), Math.max(...lats)],
  }
}
