import type { Photo } from '../../../geo/model/photos.ts'
import { farmMap } from '../state/mapHandle.ts'
import { photos } from '../state/photos.ts'

/** Brings a photo into view. Gives its record, or null where it is not there or has no place. */
export function showPhoto(id: string): Photo | null {
  const photo = photos.value.find((shown) => shown.photo.id === id)?.photo
  const corners = photo?.corners
  if (!photo || !corners) return null
  const [lons, lats] = [corners.map(([lon]) => lon), corners.map(([, lat]) => lat)]
  farmMap.value?.fitTo({
    southWest: [Math.min(...lons), Math.min(...lats)],
    northEast: [Math.max(...lons), Math.max(...lats)],
  })
  return photo
}
