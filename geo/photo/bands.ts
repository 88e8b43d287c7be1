import type { GeoTIFFImage } from 'geotiff'
import { type PhotoFault, photoFault } from './placement.ts'

/** Samples as geotiff hands them over, pixel by pixel. */
export type Samples = ArrayLike<number>

/** How a picture's samples become colour. */
export interface Bands {
  /** Which samples of each pixel to read; `colourAt` finds them in this order. */
  readonly samples: readonly number[]
  /** 1 for grey, 3 for red, green, blue. */
  readonly channels: 1 | 3
  /** True where colours come as 0–255; else they are in the sensor's own numbers and want a stretch. */
  readonly isLevel: boolean
  /** Adds the pixel's colour times its opacity onto `sums[to …]` and returns its opacity, 0–1 (0: no data here). */
  colourAt(data: Samples, at: number, sums: Float64Array, to: number): number
  readonly notes: readonly string[]
}

const whiteIsZero = 0
const rgbColours = 2
const palette = 3
const yCbCr = 6
const jpeg = 7
const premultiplied = 1
const straightAlpha = 2

interface Opacity {
  readonly sample: number
  readonly isPremultiplied: boolean
}

const opacitySample = (image: GeoTIFFImage, perPixel: number): Opacity | undefined => {
  const extras = Array.from(image.fileDirectory.getValue('ExtraSamples') ?? [])
  const index = extras.findIndex((kind) => kind === premultiplied || kind === straightAlpha)
  if (index === -1) return undefined
  return { sample: perPixel - extras.length + index, isPremultiplied: extras[index] === premultiplied }
}

/** Samples of one pixel that stand for no data: every colour sample equals the file's no-data number, or any is NaN. */
const emptyTest = (image: GeoTIFFImage, colours: number): ((data: Samples, at: number) => boolean) => {
  const told = image.getGDALNoData()
  const isSingle = image.getSampleFormat() === 3 && image.getBitsPerSample() === 32
  const noData = told !== null && isSingle ? Math.fround(told) : told
  return (data, at) => {
    let same = noData !== null
    for (let c = 0; c < colours; c += 1) {
      const value = data[at + c]!
      if (Number.isNaN(value)) return true
      if (value !== noData) same = false
    }
    return same
  }
}

const yCbCrToRgb = (y: number, cb: number, cr: number): [number, number, number] => {
  const level = (value: number): number => Math.min(255, Math.max(0, value))
  return [
    level(y + 1.402 * (cr - 128)),
    level(y - 0.344136 * (cb - 128) - 0.714136 * (cr - 128)),
    level(y + 1.772 * (cb - 128)),
  ]
}

/**
 * What the bands of a TIFF picture mean: grey, RGB, palette or JPEG's YCbCr, with or without an opacity band. A fourth
 * band that the file does not call opacity (often near infrared) is left out with a note. YCbCr by ITU-T T.871.
 */
export const bandsOf = async (image: GeoTIFFImage): Promise<Bands | PhotoFault> => {
  const { fileDirectory } = image
  const perPixel = image.getSamplesPerPixel()
  const photometric = fileDirectory.getValue('PhotometricInterpretation') ?? 1
  const compression = fileDirectory.getValue('Compression') ?? 1
  const bits = image.getBitsPerSample()
  const isByte = image.getSampleFormat() === 1 && bits <= 8
  const most = 2 ** bits - 1
  const opacity = opacitySample(image, perPixel)
  const colours = perPixel - (opacity === undefined ? 0 : 1)

  const isPalette = photometric === palette
  const isYCbCr = photometric === yCbCr
  if (photometric > rgbColours && !isPalette && !(isYCbCr && compression === jpeg && colours === 3))
    return photoFault(
      'pixels',
      `The picture's colours (TIFF photometric ${photometric}) are not read here. Save it as RGB, for example with "gdal_translate -co PHOTOMETRIC=RGB".`,
    )
  const channels = isPalette || colours >= 3 ? 3 : 1
  const read = isPalette || colours < 3 ? [0] : [0, 1, 2]
  const samples = opacity === undefined ? read : [...read, opacity.sample]
  const shown = read.length
  const isEmpty = emptyTest(image, shown)
  const opaqueAt = opacity === undefined ? -1 : shown
  const left = colours - shown
  const notes = left > 0 ? [`${left} more band${left > 1 ? 's are' : ' is'} in the file and not shown.`] : []

  const map = isPalette ? await fileDirectory.loadValue('ColorMap') : undefined
  if (isPalette && (map === undefined || map.length < 3 * 2 ** bits))
    return photoFault('pixels', 'The picture has a colour table that is missing or too short.')

  /** Levels 0–255 for byte samples, the sensor's own numbers otherwise; white-is-zero pictures are turned over. */
  const scale = isByte ? 255 / most : 1
  const sign = photometric === whiteIsZero ? -scale : scale
  const offset = photometric === whiteIsZero && isByte ? 255 : 0

  return {
    samples,
    channels,
    isLevel: isByte || isPalette,
    notes,
    colourAt: (data, at, sums, to) => {
      if (isEmpty(data, at)) return 0
      const opaque = opaqueAt === -1 ? 1 : data[at + opaqueAt]! / (image.getSampleFormat() === 3 ? 1 : most)
      if (!(opaque > 0)) return 0
      const weight = opacity?.isPremultiplied === true ? 1 : opaque
      if (map !== undefined) {
        const entry = data[at]!
        const third = map.length / 3
        for (let c = 0; c < 3; c += 1) sums[to + c]! += (weight * Number(map[c * third + entry]!)) / 257
      } else if (isYCbCr) {
        const rgb = yCbCrToRgb(data[at]!, data[at + 1]!, data[at + 2]!)
        for (let c = 0; c < 3; c += 1) sums[to + c]! += weight * rgb[c]!
      } else {
        for (let c = 0; c < channels; c += 1) sums[to + c]! += weight * (offset + sign * data[at + c]!)
      }
      return opaque
    },
  }
}
