import type { ImageSource, Map as MapLibre } from 'maplibre-gl'
import type { MapPhoto } from './farmMap.ts'

type Corners = [[number, number], [number, number], [number, number], [number, number]]
const cornersOf = (photo: MapPhoto) => photo.corners.map((c) => [...c]) as Corners

/** Photos as four-cornered pictures below the layer `under`, in the order given. */
export interface PhotoLayers {
  /** Settles when every new picture is decoded and handed to the map. */
  set(photos: readonly MapPhoto[]): Promise<void>
}

const decode = ({ picture }: MapPhoto): Promise<ImageBitmap> =>
  picture.type === 'encoded'
    ? createImageBitmap(new Blob([picture.bytes as Uint8Array<ArrayBuffer>], { type: picture.mime }))
    : createImageBitmap(new ImageData(picture.data as Uint8ClampedArray<ArrayBuffer>, picture.width, picture.height))

/** `fault` hears of a picture that does not decode; the others are shown all the same. */
export function makePhotoLayers(map: MapLibre, under: string, fault: (detail: string) => void): PhotoLayers {
  const shown = new Map<string, MapPhoto['picture']>()
  const name = (id: string) => `photo:${id}`
  const drop = (id: string) => {
    map.removeLayer(name(id))
    map.removeSource(name(id))
    shown.delete(id)
  }
  return {
    async set(photos) {
      const wanted = new Map(photos.map((photo) => [photo.id, photo]))
      for (const [id, picture] of shown) if (wanted.get(id)?.picture !== picture) drop(id)
      const decoding: Promise<void>[] = []
      for (const photo of wanted.values()) {
        const at = name(photo.id)
        if (shown.has(photo.id)) map.getSource<ImageSource>(at)?.setCoordinates(cornersOf(photo))
        else {
          map.addSource(at, { type: 'image', coordinates: cornersOf(photo) })
          map.addLayer({ id: at, type: 'raster', source: at, paint: { 'raster-fade-duration': 0 } }, under)
          shown.set(photo.id, photo.picture)
          decoding.push(
            decode(photo).then(
              (image) => {
                if (shown.get(photo.id) === photo.picture) map.getSource<ImageSource>(at)?.updateImage({ image })
              },
              () => fault(`The photo ${photo.id} could not be decoded as a picture.`),
            ),
          )
        }
        map.moveLayer(at, under)
        map.setPaintProperty(at, 'raster-opacity', photo.opacity)
        map.setLayoutProperty(at, 'visibility', photo.visible ? 'visible' : 'none')
      }
      await Promise.all(decoding)
    },
  }
}
