import type { Position } from 'geojson'

/** Twice the area in square degrees, positive where the ring runs counter-clockwise. */
export function signedArea(ring: readonly Position[]): number {
  let sum = 0
  const [lon0, lat0] = ring[0]!
  for (let i = 1; i < ring.length; i++) {
    const [a, b] = [ring[i - 1]!, ring[i]!]
    sum += (a[0]! - lon0!) * (b[1]! - lat0!) - (b[0]! - lon0!) * (a[1]! - lat0!)
  }
  return sum
}

/** The ring so that it runs counter-clockwise, or clockwise; the same object where it does already. */
export function turned(ring: Position[], counterClockwise: boolean): Position[] {
  return signedArea(ring) >= 0 === counterClockwise ? ring : [...ring].reverse()
}

/** Polygons of rings by their winding: each hole goes to the outer ring that holds it, else to the first. */
export function polygonsOf(rings: readonly Position[][]): Position[][][] {
  const polygons = rings.filter((ring) => signedArea(ring) > 0).map((outer) => [outer])
  for (const hole of rings.filter((ring) => signedArea(ring) <= 0)) {
    const holder = polygons.length === 1 ? undefined : polygons.find((polygon) => holds(polygon[0]!, hole))
    const taker = holder ?? polygons[0]
    if (taker) taker.push(hole)
    else polygons.push([hole])
  }
  return polygons
}

function holds(outer: readonly Position[], hole: readonly Position[]): boolean {
  const apart = hole.find((p) => !outer.some((q) => q[0] === p[0] && q[1] === p[1])) ?? hole[0]!
  let inside = false
  for (let i = 1; i < outer.length; i++) {
    const [a, b] = [outer[i - 1]!, outer[i]!]
    if (a[1]! > apart[1]! === b[1]! > apart[1]!) continue
    if (apart[0]! < a[0]! + ((b[0]! - a[0]!) * (apart[1]! - a[1]!)) / (b[1]! - a[1]!)) inside = !inside
  }
  return inside
}
