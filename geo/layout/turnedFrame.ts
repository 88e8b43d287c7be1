import type { Metres } from '../plane/lonLat.ts'

/** A frame turned onto a bearing: how far along it, and how far to the right of it, in metres from the plane's origin. */
export interface TurnedFrame {
  toTurned(at: Metres): Metres
  toPlane(turned: Metres): Metres
}

/** The frame whose first axis runs along a bearing, in degrees clockwise from the plane's north. */
export function turnedFrame(bearingDeg: number): TurnedFrame {
  const [s, c] = [Math.sin((bearingDeg * Math.PI) / 180), Math.cos((bearingDeg * Math.PI) / 180)]
  return {
    toTurned: ([east, north]) => [east * s + north * c, east * c - north * s],
    toPlane: ([along, right]) => [along * s + right * c, along * c - right * s],
  }
}

/** The bearing of a direction told the same for both ways along it: 0 to below 180 degrees from the plane's north. */
export function bearingOf([eastM, northM]: Metres): number {
  const deg = (Math.atan2(eastM, northM) * 180) / Math.PI
  const half = ((deg % 180) + 180) % 180
  return half === 180 ? 0 : half
}
