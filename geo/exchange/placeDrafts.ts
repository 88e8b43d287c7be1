import type { Geometry } from 'geojson'
import type { Farm } from '../model/farm.ts'
import { photos } from '../model/photos.ts'
import { FARTHEST_M, greatCircleM } from '../plane/farthest.ts'
import { mapPositions, positionsOf } from '../plane/geometry.ts'
import { type LonLat, lonAbout, lonWithin180 } from '../plane/lonLat.ts'
import { type Draft, FARM_FILE } from './archive.ts'
import type { Faults } from './faults.ts'
import { joinAtMeridian } from './joinAtMeridian.ts'

/**
 * Puts every geometry in one piece about the farm's origin (longitudes within 180° of it), tells those of the wrong type
 * or too far away, and gives the origin: the farm's own, else the middle of the fields, else of whatever has a place.
 */
export function placeDrafts(drafts: readonly Draft[], farm: Farm | null, faults: Faults): LonLat | null {
  const told: LonLat | null =
    farm?.origin_lon != null && farm.origin_lat != null ? [farm.origin_lon, farm.origin_lat] : null
  for (const draft of drafts) tellLonOutside(draft, faults)
  const anchors = drafts.map(anchorOf).filter((at) => at !== null)
  const about = told ?? middleMost(anchors)
  if (!about) return null
  let placed = 0
  let far = 0
  for (const draft of drafts) {
    if (draft.record.geom) {
      putInOnePiece(draft, about[0], faults)
      if (!draft.record.geom) continue
    } else if (pointOf(draft)) draft.record.lon = lonAbout(about[0], draft.record.lon as number)
    else continue
    placed += 1
    if (!tellFar(draft, about, faults)) far += 1
  }
  for (const draft of drafts) tellPhotoFar(draft, about, faults)
  if (told && placed > 0 && far === placed)
    faults.ofFile(FARM_FILE, `lies ${kmText(told, anchors[0]!)} from the rest of the farm`, 'farm', 'origin')
  return told ?? middleOfFields(drafts, about)
}

/**
 * True, and told, where every place of an archive lies far from the origin that it tells, and most lie near one another:
 * then the origin is what is wrong, and not each record.
 */
export function tellOriginOff(drafts: readonly Draft[], { origin_lon, origin_lat }: Farm, faults: Faults): boolean {
  if (origin_lon === null || origin_lat === null) return false
  const origin: LonLat = [origin_lon, origin_lat]
  const anchors = drafts.map(anchorOf).filter((at) => at !== null)
  const middle = middleMost(anchors)
  if (!middle || !anchors.every((at) => isFar(origin, at))) return false
  if (anchors.filter((at) => !isFar(middle, at)).length <= anchors.length / 2) return false
  faults.ofFile(FARM_FILE, farText(origin, middle), 'farm', 'origin')
  return true
}

/** Joins, unwraps and checks the type of a draft's geometry; takes the geometry away where its kind may not have it. */
function putInOnePiece(draft: Draft, aboutLon: number, faults: Faults): void {
  const { kind } = draft
  const unwrapped = unwrap(draft.record.geom!, aboutLon)
  const geometry = joinAtMeridian(unwrapped, lonAbout(aboutLon, 180))
  const shapes = kind.shapes ?? []
  if (shapes.includes('any') || (shapes as readonly string[]).includes(geometry.type)) {
    draft.record.geom = geometry
    return
  }
  faults.of(draft, 'geometry', `is a ${geometry.type}; ${kind.name} are of ${shapes.join(' or ')}`)
  delete draft.record.geom
}

function unwrap(geometry: Geometry, aboutLon: number): Geometry {
  for (const p of positionsOf(geometry))
    if (lonAbout(aboutLon, p[0]!) !== p[0])
      return mapPositions(geometry, ([lon, lat]) => [lonAbout(aboutLon, lon), lat])
  return geometry
}

function pointOf({ record, unread }: Draft): LonLat | null {
  const { lon, lat } = record
  if (typeof lon !== 'number' || typeof lat !== 'number' || unread.has('lon') || unread.has('lat')) return null
  return [lon, lat]
}

function tellLonOutside(draft: Draft, faults: Faults): void {
  const point = pointOf(draft)
  if (point && Math.abs(point[0]) > 180) faults.of(draft, 'lon', `is ${point[0]}, outside ±180`)
}

function anchorOf(draft: Draft): LonLat | null {
  if (!draft.record.geom) return pointOf(draft)
  for (const p of positionsOf(draft.record.geom)) return [p[0]!, p[1]!]
  return null
}

/** The place in the middle of all by rank, which a few swapped ones don't pull away. */
function middleMost(places: readonly LonLat[]): LonLat | null {
  const [first] = places
  if (!first) return null
  const median = (values: number[]) => values.sort((a, b) => a - b)[(values.length - 1) >> 1]!
  return [lonWithin180(median(places.map(([lon]) => lonAbout(first[0], lon)))), median(places.map(([, lat]) => lat))]
}

/** False, and told, where the draft reaches too far from the origin; its geometry is taken away. */
function tellFar(draft: Draft, about: LonLat, faults: Faults): boolean {
  const { geom } = draft.record
  let off: LonLat | null = null
  if (!geom) off = isFar(about, pointOf(draft)!) ? pointOf(draft) : null
  else
    for (const p of positionsOf(geom))
      if (isFar(about, [p[0]!, p[1]!])) {
        off = [p[0]!, p[1]!]
        break
      }
  if (!off) return true
  faults.of(draft, geom ? 'geometry' : 'lon', farText(off, about))
  if (geom) delete draft.record.geom
  return false
}

/** Tells a photo none of whose corners, nor their middle, lies near the farm. */
function tellPhotoFar(draft: Draft, about: LonLat, faults: Faults): void {
  if (draft.kind !== photos || draft.unread.has('corners')) return
  const corners = (draft.record.corners as LonLat[] | null)?.map(([lon, lat]): LonLat => [lonAbout(about[0], lon), lat])
  if (!corners) return
  const middle: LonLat = [mean(corners.map(([lon]) => lon)), mean(corners.map(([, lat]) => lat))]
  if ([...corners, middle].every((at) => isFar(about, at))) faults.of(draft, 'corners', farText(corners[0]!, about))
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length

const isFar = (about: LonLat, at: LonLat) => greatCircleM(about, at) > FARTHEST_M

function farText(off: LonLat, about: LonLat): string {
  const shown = `[${lonWithin180(off[0])}, ${off[1]}]`
  return `${shown} lies ${kmText(about, off)} from the rest of the farm${swappedText(off, about)}`
}

/** A hint where a place would be near with its numbers swapped. */
function swappedText([lon, lat]: LonLat, about: LonLat): string {
  const swapped = Math.abs(lon) <= 90 && !isFar(about, [lonAbout(about[0], lat), lon])
  return swapped ? ' (lon and lat look swapped)' : ''
}

function kmText(a: LonLat, b: LonLat): string {
  return `${Math.round(greatCircleM(a, b) / 1000)} km`
}

/** Middle of the bounding box of the fields, else of all that has a place. */
function middleOfFields(drafts: readonly Draft[], about: LonLat): LonLat {
  const fields = drafts.filter((draft) => draft.kind.name === 'fields' && draft.record.geom)
  const box = {
    west: Number.POSITIVE_INFINITY,
    south: Number.POSITIVE_INFINITY,
    east: Number.NEGATIVE_INFINITY,
    north: Number.NEGATIVE_INFINITY,
  }
  const grow = (lon: number, lat: number) => {
    box.west = Math.min(box.west, lon)
    box.east = Math.max(box.east, lon)
    box.south = Math.min(box.south, lat)
    box.north = Math.max(box.north, lat)
  }
  for (const draft of fields.length > 0 ? fields : drafts) {
    const point = draft.record.geom ? null : pointOf(draft)
    if (point && !draft.unread.has('lon')) grow(...point)
    if (draft.record.geom) for (const p of positionsOf(draft.record.geom)) grow(p[0]!, p[1]!)
  }
  if (box.west > box.east) return about
  return [lonWithin180((box.west + box.east) / 2), (box.south + box.north) / 2]
}
