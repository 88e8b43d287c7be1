import { gridsUrl } from 'virtual:selion-grids'
import { type GridBook, gridBookOf } from '../../../geo/photo/gridBook.ts'
import { fetchHere } from '../engine/fetchEngine.ts'

/** The book of known grids, a file of the page's own, fetched when a photo first needs it. */
export const fetchedGrids = (): GridBook =>
  gridBookOf(async () => (await fetchHere(gridsUrl, new AbortController().signal)).text())
