import type { GpxLine, GpxPoint } from '../../../geo/exchange/gpx/readGpx.ts'
import { type Fix, UNTOLD_M } from '../../../geo/track/fix.ts'
import type { TrackRead } from '../door.ts'
import { Refusal } from '../refusal.ts'
import type { Answers } from './answers.ts'

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
function tracksOf({ of, where, segments }: GpxLine): TrackRead[] {
  const told = segments.filter((points) => points.length > 1)
  return told.map((points, n) => ({
    name: told.length > 1 ? `${where}, part ${n + 1}` : where,
    fixes: points.map(of === 'route' ? plannedOf : fixOf),
  }))
}

/** A route's positions were planned: nothing was measured, at no time. */
const plannedOf = ({ lon, lat }: GpxPoint): Fix => ({ lon, lat, accuracyM: null, atMs: null })

function fixOf({ lon, lat, hdop, time }: GpxPoint): Fix {
  const atMs = time === null ? Number.NaN : Date.parse(time)
  return {
    lon,
    lat,
    accuracyM: hdop === null || hdop <= 0 ? null : hdop * UNTOLD_M,
    atMs: Number.isFinite(atMs) ? atMs : null,
  }
}
