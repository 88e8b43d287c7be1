import type { ExpandedTags, XmlDomParser } from 'exifreader'
import { isDay } from '../model/field.ts'
import type { LonLat } from '../plane/lonLat.ts'

/** What a picture's own tags say of how it was taken; null where they don't. */
export interface Taken {
  /** Day on the camera's clock, YYYY-MM-DD. */
  readonly on: string | null
  /** Where the camera was. */
  readonly at: LonLat | null
  /** Its height above the sea (or the ellipsoid, as the camera tells it), not above the ground. */
  readonly altitudeM: number | null
  /** Compass direction that the camera looked to, degrees clockwise from north. */
  readonly headingDeg: number | null
  /** The heading is from magnetic north, some degrees off true north. */
  readonly isMagnetic: boolean
  /** Focal length of a lens with the same angle of view on film of 36 mm × 24 mm. */
  readonly filmFocalMm: number | null
  /** Distance to what was in focus: for a picture straight down, its height above the ground. */
  readonly subjectM: number | null
}

const nothing: Taken = {
  on: null,
  at: null,
  altitudeM: null,
  headingDeg: null,
  isMagnetic: false,
  filmFocalMm: null,
  subjectM: null,
}

/** Diagonal of film of 36 mm × 24 mm, by which CIPA DCG-001 (2.4) tells the equivalent focal length. */
const filmDiagonalMm = Math.hypot(36, 24)

type Tags = Readonly<Record<string, unknown>>

/**
 * Reads the tags of a JPEG, TIFF, PNG or WebP picture: Exif 2.32 (CIPA DC-008), else the Exif properties of XMP
 * (namespace exif, ISO 16684-2). A picture without tags, or with damaged ones, says nothing. The reader is loaded when
 * first needed.
 */
export const readTaken = async (bytes: Uint8Array<ArrayBuffer>): Promise<Taken> => {
  const [{ default: reader }, { DOMParser }] = await Promise.all([import('exifreader'), import('@xmldom/xmldom')])
  const domParser = new DOMParser({ onError: () => undefined }) as unknown as XmlDomParser
  let tags: ExpandedTags
  try {
    const { buffer, byteOffset, byteLength } = bytes
    const alone = byteLength === buffer.byteLength ? buffer : buffer.slice(byteOffset, byteOffset + byteLength)
    tags = reader.load(alone, { expanded: true, domParser })
  } catch {
    return nothing
  }
  const exif: Tags = { ...tags.exif }
  const xmp: Tags = { ...tags.xmp }
  const isIn = (name: string) => exif[name] !== undefined
  const heading = ratio(exif.GPSImgDirection) ?? ratio(xmp.GPSImgDirection)
  const altitude = ratio(exif.GPSAltitude) ?? ratio(xmp.GPSAltitude)
  const isBelow = /1/.test(written(isIn('GPSAltitude') ? exif.GPSAltitudeRef : xmp.GPSAltitudeRef))
  const north = /M/.test(written(isIn('GPSImgDirection') ? exif.GPSImgDirectionRef : xmp.GPSImgDirectionRef))
  return {
    on: dayOf(exif.DateTimeOriginal) ?? dayOf(xmp.DateTimeOriginal) ?? dayOf(exif.DateTime) ?? null,
    at: exifPlace(exif) ?? xmpPlace(xmp),
    altitudeM: altitude === null ? null : isBelow ? -altitude : altitude,
    headingDeg: heading !== null && heading >= 0 && heading <= 360 ? heading % 360 : null,
    isMagnetic: heading !== null && north,
    filmFocalMm: above(ratio(exif.FocalLengthIn35mmFilm) ?? ratio(xmp.FocalLengthIn35mmFilm)),
    subjectM: above(ratio(exif.SubjectDistance) ?? ratio(xmp.SubjectDistance)),
  }
}

/** Side of a pixel on level ground in a picture taken straight down, in metres; null where the lens is not told. */
export const pixelFromHeightM = (heightM: number, filmFocalMm: number, widthPx: number, heightPx: number): number =>
  (heightM * filmDiagonalMm) / filmFocalMm / Math.hypot(widthPx, heightPx)

const held = (tag: unknown): unknown => (typeof tag === 'object' && tag !== null && 'value' in tag ? tag.value : tag)

/** A tag as text: strings and lists of them, and numbers. */
const written = (tag: unknown): string => {
  const value = held(tag)
  return Array.isArray(value) ? value.map(String).join('') : value === undefined || value === null ? '' : String(value)
}

/** A tag's number: an Exif rational [n, d], a number, or XMP's "n/d"; null where it has none (0/0 is "unknown"). */
const ratio = (tag: unknown): number | null => {
  const value = held(tag)
  if (typeof value === 'number') return finite(value)
  if (Array.isArray(value) && value.length === 2) return finite(Number(value[0]) / Number(value[1]))
  const [, n, d = '1'] = typeof value === 'string' ? (/^\s*(-?[\d.]+)(?:\/(\d+))?\s*$/.exec(value) ?? []) : []
  return n === undefined ? null : finite(Number(n) / Number(d))
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null)
const above = (value: number | null): number | null => (value !== null && value > 0 ? value : null)

const dayOf = (tag: unknown): string | null => {
  const [, year, month, day] = /^(\d{4})[:-](\d\d)[:-](\d\d)/.exec(written(tag)) ?? []
  const on = `${year}-${month}-${day}`
  return isDay(on) ? on : null
}

/** Degrees, minutes and seconds as three rationals, with N, S, E or W apart. */
const exifPlace = (exif: Tags): LonLat | null => {
  const part = (name: string, most: number): number | null => {
    const value = held(exif[name])
    if (!Array.isArray(value) || value.length !== 3) return null
    const [d, m, s] = value.map((part) => ratio([part].flat()))
    const degrees = (d ?? Number.NaN) + (m ?? 0) / 60 + (s ?? 0) / 3600
    const isMinus = /^[SW]/i.test(written(exif[`${name}Ref`]))
    return degrees >= 0 && degrees <= most ? (isMinus ? -degrees : degrees) : null
  }
  return placeOf(part('GPSLongitude', 180), part('GPSLatitude', 90))
}

/** "DDD,MM,SSk" or "DDD,MM.mmk" (XMP part 2, GPSCoordinate). */
const xmpPlace = (xmp: Tags): LonLat | null => {
  const part = (name: string, most: number): number | null => {
    const match = /^(\d{1,3}),(\d{1,2}(?:\.\d+)?)(?:,(\d{1,2}(?:\.\d+)?))?([NSEW])$/i.exec(written(xmp[name]).trim())
    if (match === null) return null
    const degrees = Number(match[1]) + Number(match[2]) / 60 + Number(match[3] ?? 0) / 3600
    return degrees <= most ? (/[SW]/i.test(match[4]!) ? -degrees : degrees) : null
  }
  return placeOf(part('GPSLongitude', 180), part('GPSLatitude', 90))
}

/** Cameras without a fix write 0, 0. */
const placeOf = (lon: number | null, lat: number | null): LonLat | null =>
  lon === null || lat === null || (lon === 0 && lat === 0) ? null : [lon, lat]
