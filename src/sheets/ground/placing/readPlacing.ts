import type { ControlPoint, FitKind, Tape } from '../../../../geo/photo/controlPoints.ts'
import { pixelFromHeightM } from '../../../../geo/photo/exif.ts'
import type { Told } from '../../../../geo/photo/fitTransform.ts'
import type { Spot } from '../../../../geo/photo/homography.ts'
import type { LonLat } from '../../../../geo/plane/lonLat.ts'
import { type Plane, planeAbout } from '../../../../geo/plane/plane.ts'
import { readPlace } from '../../../../geo/plane/readPlace.ts'
import { tooFarKm } from '../../show/tooFar.ts'
import { readNumber } from '../formValues.ts'

/** A point as it stands in the list: a spot in the picture, a place on the ground, or so far only one of them. */
export interface Mark {
  readonly id: string
  readonly spot: Spot | null
  readonly place: LonLat | null
  /** The place as it is written in its entry. */
  readonly typed: string
  readonly fault: string | null
}

/** A taped distance between two marks, as it is typed. */
export interface TypedTape {
  readonly id: string
  readonly from: string
  readonly to: string
  readonly typed: string
}

/** What is known roughly, as it is typed; empty where it is not. */
export interface TypedGuess {
  readonly middle: string
  readonly heading: string
  readonly height: string
}

/** All that is told of a picture while it is being placed. */
export interface Placing {
  readonly name: string
  readonly widthPx: number
  readonly heightPx: number
  readonly kind: FitKind
  readonly marks: readonly Mark[]
  readonly tapes: readonly TypedTape[]
  readonly guess: TypedGuess
  /** Of a lens like the camera's on film, where the picture tells it. */
  readonly filmFocalMm: number | null
  /** Side of a pixel as the photo lay before, where it is placed anew. */
  readonly pixelM: number | null
  readonly on: string
}

/** What was told, in metres of a plane, with what could not be read. */
export interface ReadPlacing {
  /** Null until something says where on the earth the picture lies. */
  readonly plane: Plane | null
  readonly told: Told | null
  /** The marks that `told.points` come from, in their order; and the tapes. */
  readonly pointIds: readonly string[]
  readonly tapeIds: readonly string[]
  readonly faults: {
    readonly tapes: Readonly<Record<string, string>>
    readonly middle?: string
    readonly heading?: string
    readonly height?: string
  }
}

/** What was told and can't be read, in words; none of it counts, so that nothing is kept until it is put right. */
export function amissIn(marks: readonly Mark[], { tapes, middle, heading, height }: ReadPlacing['faults']): string[] {
  const points = marks.flatMap(({ fault }, n) => (fault === null ? [] : [`the place of point ${n + 1}`]))
  return [
    ...points,
    ...(Object.keys(tapes).length > 0 ? ['a taped distance'] : []),
    ...(middle === undefined ? [] : ['the rough middle']),
    ...(heading === undefined ? [] : ['the heading']),
    ...(height === undefined ? [] : ['the height']),
  ]
}

/** Reads what is told of a picture. `origin` is the farm's; a farm without one gets its plane from here. */
export function readPlacing(
  { widthPx, heightPx, kind, marks, tapes, guess, filmFocalMm, pixelM }: Placing,
  origin: LonLat | null,
  metresPer: number,
): ReadPlacing {
  const faults: { tapes: Record<string, string>; middle?: string; heading?: string; height?: string } = { tapes: {} }
  const middle = readMiddle(guess.middle, origin)
  if (typeof middle === 'string') faults.middle = middle
  const middleAt = typeof middle === 'string' ? null : middle
  const complete = marks.filter(({ spot, place }) => spot !== null && place !== null)
  const about = origin ?? middleAt ?? complete[0]?.place ?? null
  const plane = about && planeAbout(about)

  const heading = guess.heading.trim() === '' ? 0 : readNumber(guess.heading)
  if (heading === null) faults.heading = `“${guess.heading}” is not a number.`
  const height = guess.height.trim() === '' ? null : readNumber(guess.height)
  if (guess.height.trim() !== '' && !(height !== null && height > 0))
    faults.height = `“${guess.height}” is not a height above the ground.`
  const fromHeight =
    height !== null && height > 0 && filmFocalMm !== null
      ? pixelFromHeightM(height * metresPer, filmFocalMm, widthPx, heightPx)
      : null

  const spotOf = new Map(marks.map(({ id, spot }) => [id, spot]))
  const read: (Tape & { id: string })[] = []
  for (const { id, from, to, typed } of tapes) {
    const length = readNumber(typed)
    const [a, b] = [spotOf.get(from), spotOf.get(to)]
    if (typed.trim() === '') continue
    if (length === null || !(length > 0)) faults.tapes[id] = `“${typed}” is not a distance.`
    else if (!a || !b) faults.tapes[id] = 'Both of its ends want a spot in the picture.'
    else if (from === to) faults.tapes[id] = 'It wants two points.'
    else read.push({ id, from: a, to: b, lengthM: length * metresPer })
  }
  return {
    plane,
    told: plane && {
      kind,
      widthPx,
      heightPx,
      points: complete.map(({ spot, place }): ControlPoint => ({ spot: spot!, ground: plane.toMetres(place!) })),
      tapes: read,
      guess: {
        middle: plane.toMetres(middleAt ?? plane.origin),
        headingDeg: heading ?? 0,
        pixelM: fromHeight ?? pixelM,
      },
    },
    pointIds: complete.map(({ id }) => id),
    tapeIds: read.map(({ id }) => id),
    faults,
  }
}

function readMiddle(text: string, origin: LonLat | null): LonLat | null | string {
  if (text.trim() === '') return null
  return readOnFarm(text, origin)
}

/** A typed place on the earth; metres count from the farm's middle. Else what is wrong with it, in words. */
export function readOnFarm(text: string, origin: LonLat | null): LonLat | string {
  const read = readPlace(text)
  if (read.as === 'fault') return read.detail
  if (read.as === 'metres')
    return origin
      ? planeAbout(origin).toLonLat(read.at)
      : 'The farm has no middle yet that metres could count from. Type latitude, longitude.'
  const farKm = origin && tooFarKm(origin, read.at)
  if (farKm !== null) return `This lies ${farKm.toLocaleString()} km from the farm’s middle. Latitude is written first.`
  return read.at
}

/** A place as it is written in an entry: latitude, longitude, to a centimetre. */
export const writePlace = ([lon, lat]: LonLat): string => `${lat.toFixed(7)}, ${lon.toFixed(7)}`
