import type { CustomLayerInterface, ImageSource, Map as MapLibre } from 'maplibre-gl'
import type { MapPhoto, Swipe } from './farmMap.ts'
import { serveTilesOf, TILE_PX } from './photoTiles.ts'

type Corners = [[number, number], [number, number], [number, number], [number, number]]
const cornersOf = (photo: MapPhoto) => photo.corners.map((c) => [...c]) as Corners

/** Photos below the layer `under`, in the order given: four-cornered pictures, or tiles of large ones. */
export interface PhotoLayers {
  /** Settles when every new picture in one piece is decoded and handed to the map. */
  set(photos: readonly MapPhoto[]): Promise<void>
  swipe(to: Swipe | null): void
}

type InOnePiece = Exclude<MapPhoto['picture'], { type: 'tiles' }>

const decode = (picture: InOnePiece): Promise<ImageBitmap> =>
  picture.type === 'encoded'
    ? createImageBitmap(new Blob([picture.bytes as Uint8Array<ArrayBuffer>], { type: picture.mime }))
    : createImageBitmap(new ImageData(picture.data as Uint8ClampedArray<ArrayBuffer>, picture.width, picture.height))

const LEFT = 'photos:left'
const RIGHT = 'photos:right'
const WHOLE = 'photos:whole'

/** `fault` hears of a picture that does not decode; the others are shown all the same. */
export function makePhotoLayers(map: MapLibre, under: string, fault: (detail: string) => void): PhotoLayers {
  const shown = new Map<string, { readonly picture: MapPhoto['picture']; readonly end: () => void }>()
  let wanted: readonly MapPhoto[] = []
  let swiped: Swipe | null = null
  const name = (id: string) => `photo:${id}`
  const drop = (id: string) => {
    map.removeLayer(name(id))
    map.removeSource(name(id))
    shown.get(id)?.end()
    shown.delete(id)
  }
  const add = (photo: MapPhoto): Promise<void> => {
    const at = name(photo.id)
    const { picture } = photo
    const layer = () =>
      map.addLayer({ id: at, type: 'raster', source: at, paint: { 'raster-fade-duration': 0 } }, under)
    if (picture.type === 'tiles') {
      const { address, end } = serveTilesOf(picture)
      const { bounds, minZoom, maxZoom } = picture
      map.addSource(at, {
        type: 'raster',
        tiles: [address],
        tileSize: TILE_PX,
        minzoom: minZoom,
        maxzoom: maxZoom,
        bounds: [...bounds],
      })
      layer()
      shown.set(photo.id, { picture, end })
      return Promise.resolve()
    }
    map.addSource(at, { type: 'image', coordinates: cornersOf(photo) })
    layer()
    shown.set(photo.id, { picture, end: () => undefined })
    return decode(picture).then(
      (image) => {
        if (shown.get(photo.id)?.picture === picture) map.getSource<ImageSource>(at)?.updateImage({ image })
      },
      () => fault(`The photo ${photo.id} could not be decoded as a picture.`),
    )
  }

  /** Where the line is in pixels of the canvas, from its left. */
  const lineAt = () => Math.round((swiped?.at ?? 0) * map.getCanvas().width)
  const cut = (id: string, side: 'left' | 'right' | null): CustomLayerInterface => ({
    id,
    type: 'custom',
    renderingMode: '2d',
    // From here on only one side of the line is drawn on, until the next of these layers.
    render(gl) {
      const { width, height } = map.getCanvas()
      if (side === null) return gl.disable(gl.SCISSOR_TEST)
      gl.enable(gl.SCISSOR_TEST)
      const line = lineAt()
      if (side === 'left') gl.scissor(0, 0, line, height)
      else gl.scissor(line, 0, Math.max(0, width - line), height)
    },
  })
  const uncut = () => {
    for (const id of [LEFT, RIGHT, WHOLE]) if (map.getLayer(id)) map.removeLayer(id)
  }
  /** The two photos on top of the others, each between the layers that cut it. */
  const order = () => {
    for (const photo of wanted) map.moveLayer(name(photo.id), under)
    const { left, right } = swiped ?? {}
    if (left === undefined || right === undefined || !shown.has(left) || !shown.has(right)) return uncut()
    if (!map.getLayer(LEFT)) {
      map.addLayer(cut(LEFT, 'left'), under)
      map.addLayer(cut(RIGHT, 'right'), under)
      map.addLayer(cut(WHOLE, null), under)
    }
    for (const id of [LEFT, name(left), RIGHT, name(right), WHOLE]) map.moveLayer(id, under)
  }
  return {
    async set(photos) {
      wanted = photos
      const byId = new Map(photos.map((photo) => [photo.id, photo]))
      for (const [id, { picture }] of shown) if (byId.get(id)?.picture !== picture) drop(id)
      const decoding: Promise<void>[] = []
      for (const photo of byId.values()) {
        const at = name(photo.id)
        if (!shown.has(photo.id)) decoding.push(add(photo))
        else if (photo.picture.type !== 'tiles') map.getSource<ImageSource>(at)?.setCoordinates(cornersOf(photo))
        map.setPaintProperty(at, 'raster-opacity', photo.opacity)
        map.setLayoutProperty(at, 'visibility', photo.visible ? 'visible' : 'none')
      }
      order()
      await Promise.all(decoding)
    },
    swipe(to) {
      const isSame = swiped?.left === to?.left && swiped?.right === to?.right
      swiped = to
      if (isSame) map.triggerRepaint()
      else order()
    },
  }
}
