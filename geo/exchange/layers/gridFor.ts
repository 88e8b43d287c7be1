import type { Geometry } from 'geojson'
import { positionsOf } from '../../plane/geometry.ts'
import { type Grid, gridOf, LON_LAT } from '../../plane/grid.ts'

/** The grid that coordinates are in, with what must be said of it; or why they can't be placed. */
export type GridFor = { readonly grid: Grid; readonly notes: readonly string[] } | { readonly unknown: string }

/**
 * The grid of coordinates by what their file tells (null: nothing), else by what the person gives, else longitude and
 * latitude where all of them could be that.
 */
export function gridFor(told: string | null, given: string | null, shapes: readonly (Geometry | null)[]): GridFor {
  const known = told === null ? null : gridOf(told)
  if (known && !('unknown' in known)) return { grid: known, notes: known.caution ? [known.caution] : [] }
  if (given !== null) {
    const grid = gridOf(given)
    if ('unknown' in grid) return { unknown: grid.unknown }
    return { grid, notes: grid.caution ? [grid.caution] : [] }
  }
  const help = 'give its EPSG code or PROJ string'
  if (known) return { unknown: `its grid is not known here (${known.unknown}): ${help}` }
  if (!couldBeDegrees(shapes)) return { unknown: `it does not say in which grid its coordinates are: ${help}` }
  return { grid: LON_LAT, notes: ['it does not say in which grid it is; taken for longitude and latitude'] }
}

function couldBeDegrees(shapes: readonly (Geometry | null)[]): boolean {
  for (const shape of shapes)
    if (shape) for (const [x, y] of positionsOf(shape)) if (Math.abs(x!) > 360 || Math.abs(y!) > 90) return false
  return true
}
