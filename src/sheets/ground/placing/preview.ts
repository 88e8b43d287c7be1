import type { PhotoCorners } from '../../../../geo/photo/placement.ts'
import { farmMap } from '../../state/mapHandle.ts'
import { placedNow } from '../../state/placing.ts'
import { source } from './state.ts'

/** A copy of this longest side is enough to see how a picture lies while it is placed. */
const SIDE_PX = 2048

let copied: { readonly of: ImageBitmap; readonly picture: NonNullable<typeof placedNow.value>['picture'] } | null = null

/** Shows the picture under the beds as it would lie; the first time, the map goes there. */
export function showPreview(image: ImageBitmap, corners: PhotoCorners, opacity: number): void {
  const isFirst = placedNow.peek() === null
  if (copied?.of !== image) copied = { of: image, picture: copyOf(image) }
  placedNow.value = { id: 'being placed', corners, picture: copied.picture, opacity, visible: true }
  if (isFirst && source.peek() && !isInSight(corners)) seeAll(corners)
}

/** Brings all of the picture into sight on the map. */
export function seeAll(corners: PhotoCorners): void {
  const [lons, lats] = [corners.map(([lon]) => lon), corners.map(([, lat]) => lat)]
  farmMap.peek()?.fitTo({
    southWest: [Math.min(...lons), Math.min(...lats)],
    northEast: [Math.max(...lons), Math.max(...lats)],
  })
}

function isInSight(corners: PhotoCorners): boolean {
  const map = farmMap.peek()
  if (!map) return false
  const { centre, metresPerPixel } = map.getView()
  const lats = corners.map(([, lat]) => lat)
  const heightM = (Math.max(...lats) - Math.min(...lats)) * 111_320
  const offM = Math.hypot(
    (centre[0] - corners[0][0]) * 111_320 * Math.cos((centre[1] * Math.PI) / 180),
    (centre[1] - corners[0][1]) * 111_320,
  )
  return offM < 800 * metresPerPixel && heightM > 60 * metresPerPixel && heightM < 1500 * metresPerPixel
}

function copyOf(image: ImageBitmap): NonNullable<typeof placedNow.value>['picture'] {
  const scale = Math.min(1, SIDE_PX / Math.max(image.width, image.height))
  const [width, height] = [Math.max(1, Math.round(image.width * scale)), Math.max(1, Math.round(image.height * scale))]
  const context = new OffscreenCanvas(width, height).getContext('2d')!
  context.imageSmoothingQuality = 'high'
  context.drawImage(image, 0, 0, width, height)
  return { type: 'rgba', width, height, data: context.getImageData(0, 0, width, height).data }
}
