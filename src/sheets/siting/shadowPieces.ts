import type { Metres } from '../../../geo/plane/lonLat.ts'
import type { Plane } from '../../../geo/plane/plane.ts'
import type { SunRay } from '../../../geo/sun/isShaded.ts'
import { shadowOf } from '../../../geo/sun/shadowOf.ts'
import type { FarmCasters } from '../../desk/door.ts'
import type { Siting } from '../../map/farmMap.ts'

type Piece = Siting['features'][number]

/** Every shadow by itself: the map lays them on each other in one tone. */
export function shadowPieces({ supports, trees, structures }: FarmCasters, ray: SunRay, about: Plane): Piece[] {
  return [...supports, ...trees, ...structures].map((caster) => area(shadowOf(caster, ray), 'shadow', about))
}

/** An area of the plane by its outline, not closed. */
export function area(outline: readonly Metres[], as: 'shadow' | 'canopy' | 'reach', about: Plane): Piece {
  const ring = [...outline, outline[0]!].map((at) => [...about.toLonLat(at)])
  return { type: 'Feature', geometry: { type: 'Polygon', coordinates: [ring] }, properties: { as } }
}
