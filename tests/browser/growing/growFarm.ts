import { writeZip } from '../../../geo/exchange/writeZip.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'
import { archiveOf } from '../../unit/exchange/archiveOf.ts'

const plane = planeAbout([15.6412, 46.3374])
/** Lon/lat of a place of the farm, told in metres from the south-west corner of its first bed. */
export const lonLat = (eastM: number, northM: number) => plane.toLonLat([eastM, northM])

const box = (w: number, s: number, e: number, n: number) => ({
  type: 'Polygon',
  coordinates: [[lonLat(w, s), lonLat(e, s), lonLat(e, n), lonLat(w, n), lonLat(w, s)]],
})
const features = (...all: { id: string; geometry: object; [name: string]: unknown }[]) => ({
  type: 'FeatureCollection',
  features: all.map(({ geometry, ...properties }) => ({ type: 'Feature', geometry, properties })),
})
const row = (id: string, bed: string, side: string, northM: number) => ({
  id,
  bed,
  name: `${bed} ${side}`,
  side,
  geometry: { type: 'LineString', coordinates: [lonLat(0, northM), lonLat(30, northM)] },
})

/** North of the first bed's south edge, in metres: where its three rows lie. They run east, 30 m each. */
export const ROW_NORTH_M = { 'north edge': 5, middle: 3, 'south edge': 1 } as const

/** A small invented farm: two beds of three rows, a walnut, raw manure, and last year's tomatoes. */
export function growFarm(): Buffer {
  const files = archiveOf({
    'farm.json': {
      format: 'selion-farm',
      version: 1,
      name: 'Three Rows (invented)',
      units: 'metric',
      seasonStartMonth: 1,
    },
    'fields.geojson': features({ id: 'f', name: 'Home field', geometry: box(-2, -12, 42, 8) }),
    'beds.geojson': features(
      { id: 'b1', field: 'f', name: 'B1', geometry: box(0, 0, 30, 6) },
      { id: 'b2', field: 'f', name: 'B2', geometry: box(0, -10, 30, -4) },
    ),
    'rows.geojson': features(
      ...Object.entries(ROW_NORTH_M).flatMap(([side, northM]) => [
        row(`b1 ${side}`, 'b1', side, northM),
        row(`b2 ${side}`, 'b2', side, northM - 10),
      ]),
    ),
    'trees.geojson': features({
      id: 't',
      species: 'Juglans nigra',
      name: 'Old walnut',
      planted: '1960-01-01',
      height_m: 18,
      canopy_radius_m: 6,
      geometry: { type: 'Point', coordinates: lonLat(40, 3) },
    }),
    'crops.csv':
      'id,name,family,climbs,juglone,juglone_source,return_years,usual_spacing_m\ntomato,Tomato,Solanaceae,yes,sensitive,invented list,4,0.5\nlettuce,Lettuce,Asteraceae,no,unknown,on no list found,,0.25\nbean,Bush bean,Fabaceae,no,tolerant,invented list,3,0.1\n',
    'varieties.csv': 'id,crop,name\nv1,tomato,River Red\nv2,lettuce,Butterhead\nv3,bean,Fine Green\n',
    'plantings.csv': 'id,row,variety,from_m,to_m,set_out,cleared\nold,b1 middle,v1,0,20,2025-05-12,2025-10-01\n',
    'dressings.csv': 'id,on,bed,material,raw_manure\nd,2026-04-20,b2,cattle manure,yes\n',
  })
  return Buffer.from(writeZip(files))
}
