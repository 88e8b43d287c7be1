import { pixelGround } from './pixelGround.ts'
import { type PhotoCorners, type PhotoFault, type PlacedPixels, photoFault } from './placement.ts'

/** Web Mercator, in which maps are drawn, ends here. */
const mostLat = 85.051129

/** How far a corner may come back from lon/lat, in pixels, before its grid is said not to reach there. */
const mostReturnPx = 0.01

/** The four outer corners of a placed picture in lon/lat, in MapLibre's order, their middle within ±180; a fault where its grid does not reach them. */
export const photoCorners = (photo: PlacedPixels): PhotoCorners | PhotoFault => {
  const { widthPx, heightPx } = photo
  const ground = pixelGround(photo)
  const pixels = [
    [0, 0],
    [widthPx, 0],
    [widthPx, heightPx],
    [0, heightPx],
  ] as const
  const corners = pixels.map(([col, row]) => ground.lonLatOf(col, row))
  const lies = corners.every((corner, i) => {
    const [col, row] = ground.pixelOf(corner)
    const offPx = Math.hypot(col - pixels[i]![0], row - pixels[i]![1])
    return Math.abs(corner[1]) <= mostLat && offPx <= mostReturnPx
  })
  if (!lies)
    return photoFault(
      'georeference',
      `The photo's corners do not lie on the ground that its grid (${photo.placement.crs.name}) covers, or lie beyond 85° of latitude. The grid named may be the wrong one.`,
    )
  const lons = corners.map(([lon]) => lon)
  const turn = 360 * Math.floor(((Math.min(...lons) + Math.max(...lons)) / 2 + 180) / 360)
  return corners.map(([lon, lat]) => [lon - turn, lat]) as unknown as PhotoCorners
}
