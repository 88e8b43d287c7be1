import type { OfCrops } from '../../../geo/yield/ofCrops.ts'
import { WrongUse } from '../wrongUse.ts'

type Given = string | boolean | undefined

/** A season given to an option; null where none was. */
export function seasonGiven(given: Given): number | null {
  if (given === undefined) return null
  if (!/^\d{4}$/.test(String(given))) throw new WrongUse(`--season ${given}: not a year`)
  return Number(given)
}

/** Several seasons: `2023-2025`, or `2022,2024`, or both together. */
export function seasonsGiven(given: Given): number[] {
  if (given === undefined) return []
  return String(given)
    .split(',')
    .flatMap((part) => {
      const [, from, to] = /^(\d{4})(?:-(\d{4}))?$/.exec(part.trim()) ?? []
      const [first, last] = [Number(from), Number(to ?? from)]
      if (from === undefined || last < first || last - first > 100)
        throw new WrongUse(`--seasons ${given}: not years such as 2023-2025 or 2022,2024`)
      return Array.from({ length: last - first + 1 }, (_, k) => first + k)
    })
}

/** One crop or one family; null for all. */
export function cropsGiven(crop: Given, family: Given): OfCrops | null {
  if (crop !== undefined && family !== undefined) throw new WrongUse('--crop and --family exclude one another')
  if (crop !== undefined) return { crop: String(crop) }
  return family === undefined ? null : { family: String(family) }
}

/** Which file of the surface is meant by its ending. */
export function surfaceFormat(file: string): 'csv' | 'geojson' {
  if (/\.csv$/i.test(file)) return 'csv'
  if (/\.(geo)?json$/i.test(file)) return 'geojson'
  throw new WrongUse(`--out ${file}: its name ends neither in .geojson nor in .csv`)
}
