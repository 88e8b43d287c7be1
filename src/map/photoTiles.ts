import { addProtocol } from 'maplibre-gl'
import type { TiledPicture } from './farmMap.ts'

const PROTOCOL = 'selion-photo'
/** Side of a tile in pixels of the page. */
export const TILE_PX = 256

const drawn = new Map<string, TiledPicture>()
let empty: Promise<ImageBitmap> | null = null
let counted = 0

/** On finely grained screens tiles are drawn twice as fine. */
const sidePx = (): number => (globalThis.devicePixelRatio > 1.25 ? 2 * TILE_PX : TILE_PX)

/** A tile without any picture. */
const nothing = (): Promise<ImageBitmap> => {
  empty ??= createImageBitmap(new ImageData(1, 1))
  return empty.then((bitmap) => createImageBitmap(bitmap))
}

/** Addresses under which MapLibre asks for a picture's tiles, and what ends that. */
export function serveTilesOf(picture: TiledPicture): { readonly address: string; readonly end: () => void } {
  if (counted === 0)
    addProtocol(PROTOCOL, async ({ url }, { signal }) => {
      const [name, z, x, y] = url.slice(PROTOCOL.length + 3).split('/')
      const known = drawn.get(name!)
      const bitmap = known && (await known.draw({ z: Number(z), x: Number(x), y: Number(y) }, sidePx(), signal))
      return { data: bitmap ?? (await nothing()) }
    })
  const name = String(++counted)
  drawn.set(name, picture)
  return { address: `${PROTOCOL}://${name}/{z}/{x}/{y}`, end: () => drawn.delete(name) }
}
