import type { GeoTIFFImage } from 'geotiff'

/** The size to which a picture is shrunk so that no side is longer than `maxSidePx`. */
export const fitted = (image: GeoTIFFImage, maxSidePx: number): [widthPx: number, heightPx: number] => {
  const scale = Math.min(1, maxSidePx / Math.max(image.getWidth(), image.getHeight()))
  const side = (full: number): number => Math.max(1, Math.round(full * scale))
  return [side(image.getWidth()), side(image.getHeight())]
}

/** The smallest copy that still has every pixel asked for. `largestFirst` begins with the full picture. */
export const smallestFor = (
  largestFirst: readonly GeoTIFFImage[],
  widthPx: number,
  heightPx: number,
): GeoTIFFImage | undefined =>
  largestFirst.findLast((image) => image.getWidth() >= widthPx && image.getHeight() >= heightPx)
