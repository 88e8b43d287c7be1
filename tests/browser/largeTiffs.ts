import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

export const hasGdal = ['gdal_translate', 'gdaladdo'].every(
  (tool) => spawnSync(tool, ['--version']).error === undefined,
)

/** Where the made photos' upper left corner lies in UTM 33 north, and the side of a pixel of the small picture, in metres. */
export const CORNER_M = [500000, 5400000] as const
const SMALL_PX = 420

/** Made GeoTIFFs in a folder of their own: west half and east half of one colour each. */
export interface LargeTiffs {
  make(name: string, how: TiffMade): { readonly path: string; readonly bytes: number }
  clear(): void
}

export interface TiffMade {
  readonly west: readonly [number, number, number]
  readonly east: readonly [number, number, number]
  readonly sideM: number
  readonly sidePx: number
  readonly options: readonly string[]
  readonly overviews: boolean
  /** GDAL's words for a grid other than UTM 33 north; null: it does not tell where it lies. */
  readonly srs?: string | null
}

export function largeTiffs(): LargeTiffs {
  const folder = mkdtempSync(join(tmpdir(), 'selion-large-'))
  return {
    make(name, { west, east, sideM, sidePx, options, overviews, srs = 'EPSG:32633' }) {
      const pixels = new Uint8Array(3 * SMALL_PX * SMALL_PX)
      for (let at = 0; at < SMALL_PX * SMALL_PX; at += 1) pixels.set(at % SMALL_PX < SMALL_PX / 2 ? west : east, 3 * at)
      writeFileSync(join(folder, `${name}.raw`), pixels)
      const px = sideM / SMALL_PX
      const bands = [0, 1, 2].map(
        (b) =>
          `<VRTRasterBand dataType="Byte" band="${b + 1}" subClass="VRTRawRasterBand"><SourceFilename relativetoVRT="1">${name}.raw</SourceFilename><ImageOffset>${b}</ImageOffset><PixelOffset>3</PixelOffset><LineOffset>${3 * SMALL_PX}</LineOffset></VRTRasterBand>`,
      )
      const where =
        srs === null
          ? ''
          : `<SRS>${srs}</SRS><GeoTransform>${CORNER_M[0]},${px},0,${CORNER_M[1]},0,${-px}</GeoTransform>`
      const vrt = join(folder, `${name}.vrt`)
      writeFileSync(
        vrt,
        `<VRTDataset rasterXSize="${SMALL_PX}" rasterYSize="${SMALL_PX}">${where}${bands.join('')}</VRTDataset>`,
      )
      const path = join(folder, `${name}.tif`)
      const size = ['-outsize', sidePx, sidePx].map(String)
      execFileSync('gdal_translate', ['-q', ...size, ...options.flatMap((one) => ['-co', one]), vrt, path])
      if (overviews) execFileSync('gdaladdo', ['-q', '-r', 'average', path, '2', '4', '8', '16'])
      return { path, bytes: statSync(path).size }
    },
    clear: () => rmSync(folder, { recursive: true, force: true }),
  }
}
