import type { LoadCase } from './loadCheck.ts'

/**
 * A gale with gusts of 20 m/s over open ground near its surface (Kz 0.85, ASCE 7's least), on a leafed side that lets
 * through or gives way to half of it (coefficient 0.5, from memory of drag on crops and hedges). Assumed: the local
 * code's wind stands above it.
 */
export const ASSUMED_WIND: Pick<LoadCase, 'wind' | 'leafCoefficient'> = {
  wind: { speedMPerS: 20, exposure: 0.85, topography: 1, direction: 1 },
  leafCoefficient: 0.5,
}
