import { plantsAt } from '../spacing.ts'
import type { Stand } from '../stand.ts'
import type { TooDense } from './warning.ts'

/**
 * Whether more plants are told of a stretch of row than stand in it at the crop's closest usual spacing, or, where the
 * crop has none, at the spacing that was told. A planting told by its bed alone has no row to count along.
 */
export function tooDense({ planting, crop, bed, row, span }: Stand): TooDense | null {
  const usualM = crop.usual_spacing_m ?? planting.spacing_m
  if (row === null || usualM === null) return null
  const lengthM = span[1] - span[0]
  const plants = planting.plants ?? (planting.spacing_m === null ? null : plantsAt(lengthM, planting.spacing_m))
  if (plants === null) return null
  const most = plantsAt(lengthM, usualM)
  if (plants <= most) return null
  const source =
    crop.usual_spacing_m === null
      ? 'the spacing told of this planting'
      : (crop.spacing_source ?? 'as the crop says; no source is kept')
  return { kind: 'dense', planting: planting.id, bed, source, plants, most, lengthM, usualM }
}
