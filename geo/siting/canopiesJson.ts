import type { SitingReading } from './sitingReading.ts'

/** By bed, the first year of the plan in which a walnut's roots, and any tree's canopy, reach its middle line; beds that neither reaches are left out. */
export function canopiesJson({ beds }: Pick<SitingReading, 'beds'>) {
  return beds
    .filter(({ walnutFrom, canopyFrom }) => walnutFrom !== null || canopyFrom !== null)
    .map(({ id, walnutFrom, canopyFrom }) => ({ bed: id, walnut_from: walnutFrom, canopy_from: canopyFrom }))
}
