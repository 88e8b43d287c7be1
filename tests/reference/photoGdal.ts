import { execFileSync, spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { LonLat } from '../../geo/plane/lonLat.ts'

/** Open data of the project's neighbour folder, or where SELION_OPEN_DATA points. */
export const openData = (name: string): string => join(process.env.SELION_OPEN_DATA ?? '../shared/data', name)

export const osbs = openData('OSBS_029.tif')
export const hasOsbs = existsSync(osbs)
export const noOsbs = 'OSBS_029.tif is not here: NEON camera imagery (CC0), shipped with the deepforest package'

export const hasGdal = ['gdal_translate', 'gdalwarp', 'gdaltransform', 'gdaladdo', 'gdal_create'].every(
  (tool) => spawnSync(tool, ['--version']).error === undefined,
)
export const noGdal = 'GDAL is not here: Debian package gdal-bin'

if (!hasGdal) console.info(`photo tests against GDAL are skipped. ${noGdal}.`)
if (!hasOsbs) console.info(`photo tests on real imagery are skipped. ${noOsbs}.`)

export const gdal = (tool: string, args: readonly string[], input?: string): string =>
  execFileSync(tool, args, {
    encoding: 'utf8',
    stdio: ['pipe', 'pipe', 'pipe'],
    ...(input === undefined ? {} : { input }),
  })

/** A folder of test files, gone after the tests. */
export interface Bench {
  readonly path: (name: string) => string
  readonly write: (name: string, text: string) => string
  readonly writeBytes: (name: string, bytes: Uint8Array) => void
  readonly bytes: (name: string) => Uint8Array<ArrayBuffer>
  readonly clear: () => void
}

export const bench = (): Bench => {
  const folder = mkdtempSync(join(tmpdir(), 'photo-'))
  const path = (name: string): string => join(folder, name)
  return {
    path,
    write: (name, text) => {
      writeFileSync(path(name), text)
      return path(name)
    },
    writeBytes: (name, bytes) => writeFileSync(path(name), bytes),
    bytes: (name) => bytesOf(path(name)),
    clear: () => rmSync(folder, { recursive: true, force: true }),
  }
}

export const bytesOf = (path: string): Uint8Array<ArrayBuffer> => new Uint8Array(readFileSync(path))

export type Corner = readonly [number, number]

/** Upper left, upper right, lower right, lower left in the file's own grid, as gdalinfo tells them. */
export const gdalCorners = (path: string): readonly [Corner, Corner, Corner, Corner] => {
  const { cornerCoordinates: c } = JSON.parse(gdal('gdalinfo', ['-json', path])) as {
    cornerCoordinates: Record<'upperLeft' | 'upperRight' | 'lowerRight' | 'lowerLeft', Corner>
  }
  return [c.upperLeft, c.upperRight, c.lowerRight, c.lowerLeft]
}

/** Places in a file (pixel, line from its upper-left corner) in lon/lat on WGS 84, by gdaltransform. */
export const gdalLonLat = (path: string, pixels: readonly Corner[]): LonLat[] =>
  gdal(
    'gdaltransform',
    ['-t_srs', 'EPSG:4326', '-output_xy', path],
    pixels.map(([col, row]) => `${col} ${row}`).join('\n'),
  )
    .trim()
    .split('\n')
    .map((line) => line.split(' ').map(Number) as unknown as LonLat)

/** Makes a small plain GeoTIFF in a grid, by its upper-left and lower-right corners. */
export const makeTiff = (
  path: string,
  srs: string,
  [ulx, uly, lrx, lry]: readonly [number, number, number, number],
  size: readonly [number, number],
): void => {
  const ullr = [ulx, uly, lrx, lry].map(String)
  const shape = ['-outsize', String(size[0]), String(size[1]), '-bands', '3', '-burn', '90 120 60', '-ot', 'Byte']
  gdal('gdal_create', [...shape, '-a_srs', srs, '-a_ullr', ...ullr, path])
}

/** Bytes of a raster as GDAL decodes it, band after band. */
export const gdalRaw = (path: string, into: string, args: readonly string[] = []): Uint8Array<ArrayBuffer> => {
  gdal('gdal_translate', ['-q', '-of', 'ENVI', '-co', 'INTERLEAVE=BSQ', ...args, path, into])
  return bytesOf(into)
}
