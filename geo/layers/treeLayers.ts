import type { Point } from 'geojson'
import { spreadOn } from '../measure/canopy.ts'
import { isJugloneSource } from '../measure/juglone.ts'
import { type Tree, trees as treeKind } from '../model/trees.ts'
import type { LonLat } from '../plane/lonLat.ts'
import type { Plane } from '../plane/plane.ts'
import type { Database } from '../store/database.ts'
import { fromStored, readStored } from '../store/row.ts'
import type { Layer } from './layer.ts'

const CIRCLE_CORNERS = 48

/** Trees standing on a day with their canopies, and the root reach of the juglone sources among them. All, or those named. */
export async function treeLayers(
  db: Database,
  plane: Plane,
  on: string,
  ids: readonly string[] | null,
): Promise<{ trees: Layer<'trees'>; canopies: Layer<'canopies'> }> {
  const trees: Layer<'trees'> = { type: 'FeatureCollection', features: [] }
  const canopies: Layer<'canopies'> = { type: 'FeatureCollection', features: [] }
  const stored = await readStored(db, treeKind, ids ? { by: 'id', values: ids } : undefined)
  for (const row of stored) {
    const tree = fromStored(row) as unknown as Tree
    if ((tree.planted ?? on) > on || (tree.removed !== null && tree.removed <= on)) continue
    const at = (tree.geom as Point).coordinates as unknown as LonLat
    const spread = spreadOn(tree, on)
    const source = isJugloneSource(tree)
    const { id, species, name, height_m } = tree
    trees.features.push({
      type: 'Feature',
      geometry: tree.geom,
      properties: { id, species, name, height_m, canopy_radius_m: spread.canopyM, source },
    })
    for (const [ring, radius_m] of [
      ['canopy', spread.canopyM],
      ['reach', source ? spread.reachM : 0],
    ] as const) {
      if (radius_m <= 0) continue
      canopies.features.push({
        type: 'Feature',
        geometry: { type: 'Polygon', coordinates: [circle(plane, at, radius_m)] },
        properties: { id, ring, source, radius_m, assumed: spread.assumed },
      })
    }
  }
  return { trees, canopies }
}

function circle(plane: Plane, at: LonLat, radiusM: number): number[][] {
  const [x, y] = plane.toMetres(at)
  return Array.from({ length: CIRCLE_CORNERS + 1 }, (_, i) => {
    const angle = (2 * Math.PI * (i % CIRCLE_CORNERS)) / CIRCLE_CORNERS
    return [...plane.toLonLat([x + radiusM * Math.cos(angle), y + radiusM * Math.sin(angle)])]
  })
}
