import type { Feature, FeatureCollection, Polygon } from 'geojson'
import type { LonLat } from '../../../geo/plane/lonLat.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'
import type { DrawnMap } from '../../../src/map/farmMap.ts'
import { ON_PAPER } from '../../../src/map/theme/palette.ts'
import { layersFor } from '../../../src/map/theme/styleFor.ts'
import type { MapAsked } from '../../../src/print/page/sheetPages.ts'

/** An invented farm of one field and one bed, at 46.05° N, 14.5° E. */
export const PLANE = planeAbout([14.5, 46.05])

const polygon = (corners: readonly LonLat[], properties: object): Feature<Polygon> => ({
  type: 'Feature',
  properties,
  geometry: { type: 'Polygon', coordinates: [[...corners, corners[0]!].map((c) => [...c])] },
})
const inPlane = (corners: readonly (readonly [number, number])[]) => corners.map((c) => PLANE.toLonLat(c))

export const FIELD = inPlane([
  [-32, -18],
  [30, -22],
  [34, 16],
  [-28, 21],
])
/** Lies aslant, so that a scale wrong along one axis shows. */
export const BED = inPlane([
  [-20, -10],
  [16.2, 8.4],
  [15.6, 9.6],
  [-20.6, -8.8],
])

const collection = (...features: Feature[]): FeatureCollection => ({ type: 'FeatureCollection', features })
const NONE = collection()

export function smallFarm(): DrawnMap {
  return {
    layers: layersFor({ sheet: 'ground', palette: ON_PAPER, overPhoto: false, today: '2026-07-01' }, { of: 'par' }),
    sources: {
      fields: collection(polygon(FIELD, { id: 'f', name: 'Zgornja njiva', area_m2: 2400 })),
      beds: collection(
        polygon(BED, { id: 'b', name: 'B1', field: 'f', area_m2: 54, standing: true, stock: 0, dressed: null }),
      ),
      'field-names': NONE,
      'bed-names': NONE,
    },
    ramp: { of: 'par' },
    photos: [],
  }
}

/** The farm's map at a scale, its bar of 20 m. */
export const smallMap = (scale: number | null, of: Partial<MapAsked> = {}): MapAsked => ({
  drawn: smallFarm(),
  plane: PLANE,
  extent: FIELD.map((at) => PLANE.toMetres(at)),
  scale,
  upDeg: 0,
  units: 'metric',
  bar: (metresPerMm) => ({ lengthMm: 20 / metresPerMm, half: '10', whole: '20 m' }),
  scaleWords: () => null,
  ...of,
})
