import { crsOfEpsg, crsOfWkt } from './crs.ts'
import type { GridBook } from './gridBook.ts'
import { isPhotoFault, type PhotoCrs, type PhotoFault, photoFault } from './placement.ts'
import { crsOfProj } from './projCrs.ts'

/** The reference system of an EPSG code: one known here, or one in the book. */
export const findEpsg = async (code: number, book: GridBook): Promise<PhotoCrs | PhotoFault> => {
  const known = crsOfEpsg(code)
  if (!isPhotoFault(known)) return known
  const grid = await book(code)
  return grid === null ? known : crsOfProj(grid.name, grid.proj, 'registry')
}

/**
 * The grid that a person names: an EPSG code (`32617`, `EPSG:32617`), a PROJ string (`+proj=tmerc …`), or the text of a
 * `.prj` file.
 */
export const crsOfTyped = async (typed: string, book: GridBook): Promise<PhotoCrs | PhotoFault> => {
  const text = typed.trim()
  const code = /^(?:EPSG:\s*)?(\d{4,6})$/i.exec(text)?.[1]
  if (code !== undefined) return findEpsg(Number(code), book)
  if (/^\+(?:proj|a|ellps|datum)=/.test(text) && /\+proj=/.test(text)) {
    const kind = /\+proj=(\w+)/.exec(text)![1]!
    return crsOfProj(`The grid given (${kind})`, text, 'person')
  }
  if (/^(?:PROJCS|GEOGCS)\s*\[/i.test(text)) return crsOfWkt(text)
  return photoFault(
    'crs',
    'Give the grid as an EPSG code (32617 or EPSG:32617) or as a PROJ string that begins with +proj=.',
  )
}
