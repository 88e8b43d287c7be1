import type { GpxLine, GpxPoint } from '../../../geo/exchange/gpx/readGpx.ts'
import type { Fix } from '../../../geo/track/fix.ts'
import type { TrackRead } from '../door.ts'
import { Refusal } from '../refusal.ts'
import type { Answers } from './answers.ts'

/** One position's error, as a radius for 95 in 100, where the dilution of precision is 1: an ordinary receiver under open sky. */
const OPEN_SKY_M = 5

export const readTracks: Answers['readTracks'] = async ({ name, bytes }, { signal }) => {
  const { readGpx } = await import('../../../geo/exchange/gpx/readGpx.ts')
  const read = await readGpx(bytes, name, async () => signal.throwIfAborted())
  const tracks = read.lines.flatMap(tracksOf)
  const notes = read.notes.map(({ record, reason }) => [record, reason].filter(Boolean).join(': '))
  if (tracks.length === 0)
    throw new Refusal('archive', `${name} holds no track or route.${notes[0] ? ` ${notes[0]}.` : ''}`)
  return { tracks, notes }
}

/** Each segment by itself: between two of them the device told nothing. */
function tracksOf({ where, segments }: GpxLine): TrackRead[] {
  const told = segments.filter((points) => points.length > 1)
  return told.map((points, n) => ({
    name: told.length > 1 ? `${where}, part ${n + 1}` : where,
    fixes: points.map(fixOf),
  }))
}

function fixOf({ lon, lat, hdop, time }: GpxPoint): Fix {
  const atMs = time === null ? Number.NaN : Date.parse(time)
  return {
    lon,
    lat,
    accuracyM: hdop === null || hdop <= 0 ? null : hdop * OPEN_SKY_M,
    atMs: Number.isFinite(atMs) ? atMs : null,
  }
}
