import type { PointMethod } from '../../../geo/yield/points/pointSurface.ts'
import type { ReckonedPoints } from '../../../geo/yield/points/reckonPoints.ts'
import { table } from '../table.ts'

type Told = ReckonedPoints & { readonly method: PointMethod }

export const METHODS: readonly PointMethod[] = ['kriging', 'inverse distance']

/** A surface through points as data, values at cells in the order of the surface's file. */
export function pointsData({ method, surface, tooLittle }: Told): object {
  if (surface === null) return { method, tooLittle }
  const { values, errors, ...rest } = surface
  return { ...rest, tooLittle, index: [...values], standardError: errors && [...errors] }
}

/** How far the surfaces through points miss, and their models. */
export function pointsTable(told: readonly Told[]): string {
  const lines = told.map(({ method, surface, tooLittle }) => {
    const { points, missedBy, model, errors } = surface ?? {}
    const sorted = errors && Float64Array.from(errors).sort()
    return [
      method,
      points,
      missedBy,
      model?.shape ?? tooLittle,
      model?.nugget,
      model?.psill,
      model?.rangeM,
      sorted?.[sorted.length >> 1],
    ]
  })
  const heads = ['by', 'points', 'each missed by', 'model', 'nugget', 'psill', 'range m', 'middle standard error']
  return `Index through the middles of stretches\n${table(heads, lines, 3)}`
}
